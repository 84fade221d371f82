// Limits of a driver in its system, and several drivers as one, as everyday calculations.
import { type Calculation, calculation } from '../base/calculation.ts';
import { choice, list, number, orElse, record } from '../base/calculation-inputs.ts';
import { refused } from '../base/refusal.ts';
import { success } from '../base/result.ts';
import {
  filterFamilyInput,
  filterOrderInput,
  impossibleFilter,
  plannedFilterInput,
} from '../signals/filters/planned-filter-input.ts';
import { anyBox, driverInput, sourceInput } from './inputs.ts';
import { bindingLimit, minHighPass, toneCeiling } from './limits.ts';
import { coilJoins, combined, coneSag, dualCoil, isobaric } from './several-drivers.ts';

const positive = { above: 0 };
const caution = 'A forecast: prove it by a take at rising level, with ears protected, starting low.';

const eqInput = orElse(
  list(
    record({
      type: choice(['peaking', 'low-shelf', 'high-shelf']),
      fHz: number('Hz', positive),
      gainDb: number('dB', { min: -60, max: 60 }),
      q: number('', positive),
    }),
  ),
  [],
  'none',
);

const driven = {
  driver: driverInput,
  box: anyBox,
  sourceOhm: sourceInput,
  xmaxMm: number('mm', positive),
  ampVrms: number('V', positive),
  eq: eqInput,
};

const powered = {
  ...driven,
  thermalW: number('W', positive),
  duty: orElse(number('', positive), 1),
  filters: orElse(list(plannedFilterInput), [], 'none'),
};

const upright = (fromHz: number, toHz: number) =>
  fromHz < toHz
    ? null
    : refused('contradiction', 'toHz', `A range from ${fromHz} Hz to ${toHz} Hz is none.`, 'Give fromHz below toHz.');

export const limitCalculations: readonly Calculation[] = [
  calculation({
    name: 'maxSpl',
    about: 'loudest tone at each frequency, and what limits it',
    caution,
    inputs: { ...powered, freqsHz: list(number('Hz', positive)) },
    answer({ xmaxMm, filters, freqsHz, ...given }) {
      const points = () => toneCeiling({ ...given, filters, xmaxM: xmaxMm / 1000 }, given, freqsHz);
      return impossibleFilter(filters) ?? success({ points: points() });
    },
  }),
  calculation({
    name: 'bindingLimit',
    about: 'what music meets first as it is turned up: stroke, heat or amplifier',
    caution,
    inputs: { ...powered, fromHz: number('Hz', positive), toHz: number('Hz', positive) },
    answer({ xmaxMm, filters, fromHz, toHz, ...given }) {
      const found = () => bindingLimit({ ...given, filters, xmaxM: xmaxMm / 1000 }, given, fromHz, toHz);
      return upright(fromHz, toHz) ?? impossibleFilter(filters) ?? success(found());
    },
  }),
  calculation({
    name: 'minHighPass',
    about: 'lowest high-pass that keeps a driver within its stroke at the amplifier clip voltage',
    caution: 'The floor by stroke alone: stay above twice the resonance (12 dB/octave) and above the maker’s minimum.',
    inputs: { ...driven, family: filterFamilyInput, order: filterOrderInput },
    answer({ xmaxMm, ampVrms, family, order, ...given }) {
      const impossible = impossibleFilter([{ family, order }]);
      if (impossible) return impossible;
      const found = minHighPass({ ...given, xmaxM: xmaxMm / 1000 }, ampVrms, { family, order });
      if (!found.ok) return found;
      const { xPeakM, ...rest } = found.value;
      return success({ ...rest, xPeakMm: 1000 * xPeakM });
    },
  }),
  calculation({
    name: 'coneSag',
    about: 'how far a cone that faces up or down sinks under its own weight',
    inputs: { fsHz: number('Hz', positive), xmaxMm: number('mm', positive) },
    answer({ fsHz, xmaxMm }) {
      const { sagM, ...rest } = coneSag(fsHz, xmaxMm / 1000);
      return success({ sagMm: 1000 * sagM, ...rest });
    },
  }),
  calculation({
    name: 'combine',
    about: 'alike drivers in one box as one driver',
    inputs: {
      driver: driverInput,
      series: number('', { min: 1, max: 1000, whole: true }),
      parallel: number('', { min: 1, max: 1000, whole: true }),
    },
    answer({ driver, series, parallel }) {
      const { sdM2, mmsKg, vasM3, ...rest } = combined(driver, series, parallel);
      return success({ sdCm2: 1e4 * sdM2, mmsG: 1000 * mmsKg, vasL: 1000 * vasM3, ...rest });
    },
  }),
  calculation({
    name: 'isobaric',
    about: 'two alike drivers face to face on one opening as one driver',
    inputs: { driver: driverInput, join: choice(['series', 'parallel']) },
    answer({ driver, join }) {
      const { sdM2, mmsKg, vasM3, ...rest } = isobaric(driver, join);
      return success({ sdCm2: 1e4 * sdM2, mmsG: 1000 * mmsKg, vasL: 1000 * vasM3, ...rest });
    },
  }),
  calculation({
    name: 'dualCoil',
    about: 'a driver with two coils, joined in another way than its sheet says',
    inputs: {
      reSeriesOhm: number('ohm', positive),
      qesSeries: number('', positive),
      qms: number('', positive),
      blSeriesTm: number('T m', positive),
      join: choice(coilJoins),
    },
    answer: ({ join, ...coils }) => success(dualCoil(coils, join)),
  }),
];

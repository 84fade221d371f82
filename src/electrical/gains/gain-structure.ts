// How to set a chain so that all devices clip together, a little before the driver's limit.
import { calculation } from '../../base/calculation.ts';
import { flag, list, number, optional, orElse } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';

export interface GainChain {
  /** Loudest clean output of the source, above 0. */
  sourceCleanV: number;
  /** What the processor's input takes at most, above 0. */
  procInMaxV: number;
  /** Its input ranges, each above 0. */
  procInRangesV: readonly number[];
  procOutMaxV: number;
  /** Kept inside the processor for equaliser boost and summing, 0 or more. */
  headroomDb: number;
  /** Sensitivity with the gain fully up, above 0 and at most `ampSensMaxV`. */
  ampSensMinV: number;
  /** Sensitivity with the gain fully down. */
  ampSensMaxV: number;
  ampRatedW: number;
  loadOhm: number;
  /** What the driver stands, above 0. */
  driverLimitV?: number | undefined;
  /** Whether the processor makes up digitally for a source that does not fill its input. */
  makeUpDigital: boolean;
}

export interface GainStructure {
  ampClipV: number;
  targetV: number;
  limitedBy: 'amplifier' | 'driver';
  /** 0 or below: a divider before the processor. */
  inputPadDb: number;
  inputRangeV: number;
  /** 0 or below: how much of the converter the source leaves unused. */
  inputBelowFullDb: number;
  ampSensV: number;
  /** 0 or below: the processor's output turned down because the amplifier cannot be. */
  procTrimDb: number;
  /** 0 or above: how far the amplifier stays below its target. */
  shortDb: number;
  /** After the trim, at a full-scale programme. */
  procOutV: number;
  ampOutV: number;
  ampGainDb: number;
}

const db = (ratio: number) => 20 * Math.log10(ratio);

/** What the source leaves after the pad, and the smallest range that takes it. */
function inputOf({ sourceCleanV, procInMaxV, procInRangesV }: GainChain) {
  const entersV = Math.min(sourceCleanV, procInMaxV);
  const enough = procInRangesV.filter((rangeV) => rangeV >= entersV * (1 - 1e-9));
  const rangeV = enough.length === 0 ? procInMaxV : enough.reduce((least, range) => Math.min(least, range));
  return { padDb: db(entersV / sourceCleanV), rangeV, belowFullDb: db(Math.min(entersV / rangeV, 1)) };
}

/**
 * Settings of input, output, trim and amplifier, in that order of preference: as much level out of the processor as the
 * amplifier takes, as little gain in the amplifier as does.
 *
 * @returns `procOutV` times the gain is `ampOutV`; that is the target unless `shortDb` is above 0. Refused as
 *   `contradiction` where the amplifier's sensitivity range is upside down
 * Source: P = V^2 / R; levels in a chain multiply.
 */
export function gainStructure(chain: GainChain): Result<GainStructure> {
  const { ampSensMinV, ampSensMaxV, driverLimitV } = chain;
  if (ampSensMinV > ampSensMaxV) {
    const message = `ampSensMinV ${ampSensMinV} is above ampSensMaxV ${ampSensMaxV}.`;
    return refused('contradiction', 'ampSensMinV', message, 'The minimum is the sensitivity with the gain fully up.');
  }
  const ampClipV = Math.sqrt(chain.ampRatedW) * Math.sqrt(chain.loadOhm);
  const targetV = Math.min(ampClipV, driverLimitV ?? ampClipV);
  const { padDb, rangeV, belowFullDb } = inputOf(chain);
  const fullV = chain.procOutMaxV * 10 ** (-chain.headroomDb / 20);
  const untrimmedV = chain.makeUpDigital ? fullV : fullV * 10 ** (belowFullDb / 20);
  const wantedV = (untrimmedV * ampClipV) / targetV;
  const ampSensV = Math.min(Math.max(wantedV, ampSensMinV), ampSensMaxV);
  const procTrimDb = Math.min(0, db(ampSensV / wantedV));
  const procOutV = untrimmedV * 10 ** (procTrimDb / 20);
  return success({
    ampClipV,
    targetV,
    limitedBy: targetV < ampClipV ? 'driver' : 'amplifier',
    inputPadDb: padDb,
    inputRangeV: rangeV,
    inputBelowFullDb: belowFullDb,
    ampSensV,
    procTrimDb,
    shortDb: Math.max(0, db(ampSensV / wantedV)),
    procOutV,
    ampOutV: (procOutV * ampClipV) / ampSensV,
    ampGainDb: db(ampClipV / ampSensV),
  });
}

const volts = number('V', { above: 0 });

export const gainStructureCalculation = calculation({
  name: 'gainStructure',
  about: 'settings of a chain so that all of it clips together, before the driver suffers',
  caution: 'Gain work with drivers unplugged; amplifiers under test get hot: five minutes on, five off at full tone.',
  inputs: {
    sourceCleanV: volts,
    procInMaxV: volts,
    procInRangesV: optional(list(volts), 'procInMaxV alone'),
    procOutMaxV: volts,
    headroomDb: orElse(number('dB', { min: 0 }), 0),
    ampSensMinV: volts,
    ampSensMaxV: volts,
    ampRatedW: number('W', { above: 0 }),
    loadOhm: number('ohm', { above: 0 }),
    driverLimitV: optional(volts),
    makeUpDigital: orElse(flag, true),
  },
  answer: ({ procInRangesV, ...chain }) =>
    gainStructure({ ...chain, procInRangesV: procInRangesV ?? [chain.procInMaxV] }),
});

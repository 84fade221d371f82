// The impedance of a driver on its screen: curves for the plot, its sentence, and the values that the plan would take.
import { impedancePlot } from '../../../charts/drivers/driver-plots.ts';
import { frequencyText, type NumberStyle, signedText, significantText } from '../../../charts/number-words.ts';
import type { PlotSpec } from '../../../charts/plot-spec.ts';
import {
  asSheet,
  type ComparedValue,
  type MeasuredJoin,
  type SheetComparison,
} from '../../../drivers/impedance/against-sheet.ts';
import type { ImpedanceReading, MeasuredDriver } from '../../../drivers/impedance/impedance-reading.ts';
import { sheetCurve } from '../../../drivers/impedance/sheet-curve.ts';
import { logSpaced } from '../../../drivers/limits.ts';
import { type PartOf, partSchemas } from '../../../plan/plan.ts';

type Driver = PartOf<'driver'>;

/** The driver with what was measured as its sheet; null where a plan cannot hold such values. */
export function driverAsMeasured(driver: Driver, measured: MeasuredDriver, joined: MeasuredJoin): Driver | null {
  const sheet = asSheet(measured, driver.coils ?? 1, joined);
  const rounded = Object.fromEntries(
    Object.entries(sheet).map(([field, value]) => [field, Number(value.toPrecision(4))]),
  );
  const found = partSchemas.driver.safeParse({ ...driver, ...rounded });
  return found.success ? found.data : null;
}

const withUnit = (value: number, unit: string, style: NumberStyle) =>
  unit === 'Hz' ? frequencyText(value, style) : `${significantText(value, 3, style)}${unit === '' ? '' : ` ${unit}`}`;

/** One side of a compared value; null where the plan says nothing. */
export const comparedText = ({ unit }: ComparedValue, value: number | null, style: NumberStyle): string =>
  value === null ? 'not in the plan' : withUnit(value, unit, style);

/** What the curve shows, for the eye and for the ear. */
export function impedanceSentence(
  measured: MeasuredDriver | null,
  compared: SheetComparison | null,
  driver: Driver,
  style: NumberStyle,
): string {
  if (measured === null || compared === null) {
    return driver.fsHz === undefined
      ? 'The plan does not say where its resonance is.'
      : `By the plan its resonance is ${frequencyText(driver.fsHz, style)}.`;
  }
  const told = ({ value, name, unit, sheet, measured: found }: ComparedValue): string[] => {
    if (value === 'qms' || value === 'qes') return [];
    const plan = sheet === null ? '' : ` (plan ${withUnit(sheet, unit, style)})`;
    return [`${name[0].toLowerCase()}${name.slice(1)} ${withUnit(found, unit, style)}${plan}`];
  };
  return `Measured: ${compared.values.flatMap(told).join(', ')}.`;
}

interface ImpedancePlotWish {
  driver: Driver;
  name: string;
  range: { fromHz: number; toHz: number };
  joined: MeasuredJoin;
  reading: ImpedanceReading | null;
  sentence: string;
  seriesOhm: number | undefined;
  style: NumberStyle;
}

const PLAN_POINTS = 220;

/** The measured curve over the plan's; null where there is neither. */
export function impedanceOverPlan(wish: ImpedancePlotWish): PlotSpec | null {
  const { driver, range, joined, reading, style } = wish;
  const inRange = (reading?.curve.fHz ?? []).map((f) => f >= range.fromHz && f <= range.toHz);
  const fHz =
    reading === null
      ? Array.from(logSpaced(range.fromHz, range.toHz, PLAN_POINTS))
      : reading.curve.fHz.filter((_, n) => inRange[n]);
  const plan = sheetCurve(driver, driver.coils ?? 1, joined, fHz);
  const measured = reading === null ? null : reading.curve.ohm.filter((_, n) => inRange[n]);
  if (plan === null && measured === null) return null;
  const through = wish.seriesOhm === undefined ? '' : `, through ${significantText(wish.seriesOhm, 3, style)} ohm`;
  return impedancePlot({
    style,
    subject: wish.name,
    range,
    fHz,
    sentence: wish.sentence,
    state: `${wish.name}, free in the air${measured === null ? '; by the plan' : `; measured${through}`}.`,
    curves: [
      ...(measured === null ? [] : [{ values: measured, label: 'measured' }]),
      ...(plan === null ? [] : [{ values: plan, label: 'by the plan', planned: true }]),
    ],
    ...(reading === null
      ? {}
      : {
          mark: {
            fHz: reading.driver.fsHz,
            value: reading.driver.mostOhm,
            label: frequencyText(reading.driver.fsHz, style),
          },
        }),
  });
}

/** What the resistor is for in heat: the volts of a headphone output, and those that somebody may try. */
export function resistorCaution(seriesOhm: number | undefined, style: NumberStyle): string {
  const ohm = seriesOhm ?? 10;
  const watts = (volt: number) => significantText((volt * volt) / ohm, 2, style);
  return `The resistor gets hot from an amplifier: at 5 V up to ${watts(5)} W in ${significantText(ohm, 3, style)} ohm. Take one that is rated for twice that, and do not touch it. Half a volt leaves ${watts(0.5)} W.`;
}

/** How far it lies from the plan, percent; empty where the plan says nothing. */
export function differsText({ differsPct }: ComparedValue, style: NumberStyle): string {
  if (differsPct === null) return '';
  return Math.abs(differsPct) < 0.5 ? '0 %' : `${signedText(differsPct, 0, style)} %`;
}

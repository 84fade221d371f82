// The setting sheet: every setting of every processor output, to begin with and as planned, in the steps its processor has.
import { z } from 'zod';
import { partOfTerminal } from '../../plan/networks.ts';
import type { PartOf } from '../../plan/plan.ts';
import { leadEnd } from '../leads/lead-ends.ts';
import { circumstancesOf } from '../projections/circumstances.ts';
import type { JobState } from '../projections/job-state.ts';
import { type PlanView, planView } from '../rules/plan-view.ts';
import { called, said } from '../rules/words.ts';
import { dialled } from './dialled.ts';
import { safeCorners, startingEdge } from './starting-edge.ts';

const value = z.union([z.number(), z.string()]);
export type SettingValue = z.infer<typeof value>;

export const settingRowSchema = z.object({
  setting: z.string(),
  unit: z.string().nullable(),
  start: value.nullable().describe('for the first sound; null leaves it as it is'),
  planned: value.nullable().describe('null where the plan does not say'),
  within: z.number().describe('how far a number that is read back may lie from it'),
  note: z.string().nullable().describe('why the processor cannot be dialled to what is planned'),
});

export const outputSheetSchema = z.object({
  output: z.string(),
  channel: z.string(),
  words: z.string(),
  drivers: z.array(z.string()),
  rows: z.array(settingRowSchema),
  notes: z.array(z.string()),
});

export const settingSheetSchema = z.object({
  cautions: z.array(z.string()),
  processors: z.array(z.object({ processor: z.string(), words: z.string(), outputs: z.array(outputSheetSchema) })),
  without: z.array(z.object({ channel: z.string(), says: z.string() })).describe('channels that cannot be set yet'),
});

export type SettingRow = z.infer<typeof settingRowSchema>;
export type OutputSheet = z.infer<typeof outputSheetSchema>;
export type SettingSheet = z.infer<typeof settingSheetSchema>;

type Channel = PartOf<'channel'>;
type Dials = NonNullable<PartOf<'processor'>['dials']>;
type Edge = NonNullable<Channel['highPass']>;

const cautions = [
  'Unplug or mute every amplifier channel while settings are typed in: a preset that loads half-way plays full range.',
  'These settings guard the driver that is planned for a channel. Until its lead is proven another driver may hang on it: play nothing but test tracks at their own level.',
];

/** How far under the plan a gain stands for the first sound: trade practice. */
const START_BELOW_DB = 20;
/** What a display may have rounded away where no step is known, share of the value. */
const ROUNDED_SHARE = 0.005;
/** And the least, for values near 0. */
const ROUNDED_LEAST = 0.05;

interface Draft {
  start: SettingValue | null;
  planned: SettingValue | null;
  step?: number | undefined;
  min?: number | undefined;
  max?: number | undefined;
  up?: boolean;
}

const around = (number: SettingValue | null, step: number | undefined): number => {
  if (typeof number !== 'number') return 0;
  return step === undefined ? Math.max(ROUNDED_LEAST, ROUNDED_SHARE * Math.abs(number)) : step / 2;
};

/** A row with both values on the dial. */
function row(setting: string, unit: string | null, { start, planned, up = false, ...dial }: Draft): SettingRow {
  const on = (wanted: SettingValue | null, rising: boolean) =>
    typeof wanted === 'number' ? dialled(wanted, { ...dial, up: rising }) : null;
  const [first, last] = [on(start, up), on(planned, false)];
  const word = unit === null ? '' : ` ${unit}`;
  const note =
    last?.moved && typeof planned === 'number'
      ? `${said(planned)}${word} is planned; nearest that can be dialled in is ${said(last.value)}${word}.`
      : null;
  return {
    setting,
    unit,
    start: first?.value ?? start,
    planned: last?.value ?? planned,
    within: around(last?.value ?? first?.value ?? null, dial.step),
    note,
  };
}

/** A slope of the plan that the processor does not have is told; what stands in its place is for a person to choose. */
function edgeRows(name: string, start: Edge | null, planned: Edge | null | undefined, dials: Dials, up: boolean) {
  const { crossoverFamilies: families, crossoverOrders: orders, crossoverStepHz: step } = dials;
  const family = (edge: Edge | null | undefined) => (edge === undefined ? null : edge === null ? 'off' : edge.family);
  const slope = (edge: Edge | null | undefined) => (edge ? 6 * edge.order : null);
  const kind = row(`${name} family`, null, { start: family(start), planned: family(planned) });
  const wanted = planned ?? start;
  if (wanted && families !== undefined && !families.includes(wanted.family)) {
    kind.note = `${wanted.family} is planned; the processor has ${families.join(', ')}.`;
  }
  if (start === null && !planned) return [kind];
  const steep = row(`${name} slope`, 'dB/octave', { start: slope(start), planned: slope(planned) });
  if (wanted && orders !== undefined && !orders.includes(wanted.order)) {
    steep.note = `${6 * wanted.order} dB/octave is planned; the processor has ${orders.map((order) => 6 * order).join(', ')}.`;
  }
  const corner = row(`${name} frequency`, 'Hz', { start: start?.fHz ?? null, planned: planned?.fHz ?? null, step, up });
  return [kind, { ...steep, within: 0 }, corner];
}

function eqRows({ eq = [] }: Channel, dials: Dials): SettingRow[] {
  const rows = eq.flatMap(({ type, fHz, gainDb, q }, n) => {
    const band = `eq ${n + 1}`;
    return [
      row(`${band} type`, null, { start: null, planned: type }),
      row(`${band} frequency`, 'Hz', { start: null, planned: fHz }),
      row(`${band} gain`, 'dB', {
        start: 0,
        planned: gainDb,
        step: dials.eqGainStepDb,
        min: dials.eqGainMinDb,
        max: dials.eqGainMaxDb,
      }),
      row(`${band} q`, null, { start: null, planned: q, step: dials.eqQStep, min: dials.eqQMin, max: dials.eqQMax }),
    ];
  });
  const most = dials.eqBands;
  if (most !== undefined && eq.length > most) {
    rows[0].note = `${eq.length} bands are planned; the processor has ${most}.`;
  }
  return rows;
}

function polarityRow({ polarity }: Channel): SettingRow {
  const word = (polarity ?? 1) === 1 ? 'normal' : 'inverted';
  return row('polarity', null, { start: word, planned: word });
}

function outputSheet(view: PlanView, channel: Channel, output: string, corners: ReturnType<typeof safeCorners>) {
  const dials = view.part('processor', partOfTerminal(output))?.dials ?? {};
  const lanes = view.lanes.filter(({ channels }) => channels.includes(channel));
  const { edge, note } = startingEdge(channel, lanes, corners);
  const gain = { step: dials.gainStepDb, min: dials.gainMinDb, max: dials.gainMaxDb };
  const delay = { step: dials.delayStepMs, min: 0, max: dials.delayMaxMs };
  const inputs = channel.inputs === undefined ? null : channel.inputs.join(' + ');
  const rows = [
    row('inputs', null, { start: inputs, planned: inputs }),
    ...edgeRows('high-pass', edge, channel.highPass, dials, true),
    ...edgeRows('low-pass', channel.lowPass ?? null, channel.lowPass, dials, false),
    polarityRow(channel),
    row('gain', 'dB', { start: (channel.gainDb ?? 0) - START_BELOW_DB, planned: channel.gainDb ?? null, ...gain }),
    row('delay', 'ms', { start: channel.delayMs ?? 0, planned: channel.delayMs ?? null, ...delay }),
    ...eqRows(channel, dials),
  ];
  const drivers = [...new Set(lanes.flatMap((lane) => lane.drivers))];
  return {
    output,
    channel: channel.id,
    words: called(channel),
    drivers: drivers.map((driver) => leadEnd(view, driver.id)?.words ?? called(driver)),
    rows,
    notes: note === null ? [] : [note],
  } satisfies OutputSheet;
}

/** What was planned first comes first; outputs in the order of the processor's own list. */
function outputOrder({ id, outputs = [] }: PartOf<'processor'>, output: string): number {
  const at = outputs.findIndex((known) => `${id}/${known.id}` === output);
  return at < 0 ? outputs.length : at;
}

/** The setting sheet of a job's plan. */
export function settingSheet(state: JobState): SettingSheet {
  const view = planView(state.plan.parts, circumstancesOf(state));
  const corners = safeCorners(view);
  const channels = view.plan.channel.filter(({ spare }) => spare !== true);
  const processors = view.plan.processor.map((processor) => ({
    processor: processor.id,
    words: called(processor),
    outputs: channels
      .flatMap((channel) => {
        const { output } = channel;
        return output !== undefined && partOfTerminal(output) === processor.id
          ? [outputSheet(view, channel, output, corners)]
          : [];
      })
      .sort((a, b) => outputOrder(processor, a.output) - outputOrder(processor, b.output)),
  }));
  const known = new Set(view.plan.processor.map(({ id }) => id));
  const without = channels
    .filter(({ output }) => output === undefined || !known.has(partOfTerminal(output)))
    .map((channel) => ({
      channel: channel.id,
      says: `${called(channel)} has no output of a processor in the plan yet.`,
    }));
  return { cautions, processors, without };
}

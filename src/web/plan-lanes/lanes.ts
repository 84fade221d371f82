// A plan as lanes: one row from processor channel to driver, with the findings that speak of it.
import { laneDrive, nominalOhm } from '../../job/rules/loads.ts';
import { planView } from '../../job/rules/plan-view.ts';
import { partOfTerminal } from '../../plan/networks.ts';
import type { PartOf, Plan } from '../../plan/plan.ts';
import { likeFindings } from './like-findings.ts';
import type { FindingGroup, PlanFinding } from './plan-finding.ts';

export interface LaneRow {
  key: string;
  channel?: PartOf<'channel'>;
  /** Amplifier channel, `A/1`. */
  terminal?: string;
  amplifier?: PartOf<'amplifier'>;
  load?: PartOf<'load'>;
  drivers: PartOf<'driver'>[];
  places: PartOf<'place'>[];
  /** Inputs that it plays. */
  plays: { left: boolean; right: boolean };
  watt?: number;
  ohm?: number;
  findings: FindingGroup[];
  /** Column of the first finding: 0 channel, 1 amplifier, 2 driver. */
  at: 0 | 1 | 2;
}

const byName = (a: string, b: string) => a.localeCompare(b, 'en', { numeric: true });

/** Ids that a finding's place names: `channels C1 and C3` names C1 and C3. */
export function idsIn(place: string): string[] {
  return place.split(/[\s,]+/).flatMap((word) => (/^[A-Za-z0-9][\w-]*(\/[\w-]+)?$/.test(word) ? [word] : []));
}

const columnOf = (place: string): 0 | 1 | 2 =>
  /^(channel|processor|input|source)/.test(place) ? 0 : /^(load|amplifier)/.test(place) ? 1 : 2;

/** Which inputs a channel plays, by their names or, where they have others, by their place in the list. */
function playsOf(plan: Plan, channel: PartOf<'channel'> | undefined): LaneRow['plays'] {
  const inputs = channel?.inputs ?? [];
  const side = (index: number) =>
    inputs.some((input) => {
      const known = plan.processor.find(({ id }) => id === partOfTerminal(input))?.inputs ?? [];
      return known.findIndex(({ id }) => `${partOfTerminal(input)}/${id}` === input) % 2 === index;
    });
  return { left: side(0), right: side(1) };
}

/**
 * Rows in the order of processor outputs, then loads that no channel feeds, then drivers that are in no load. A finding
 * stands under the last row that it names; what names no row is left to the list.
 */
export function lanesOf(plan: Plan, findings: readonly PlanFinding[]): LaneRow[] {
  const view = planView(plan);
  const rows: LaneRow[] = [];
  const shown = new Set<string>();
  const row = (
    key: string,
    parts: { channel?: PartOf<'channel'>; load?: PartOf<'load'>; drivers?: PartOf<'driver'>[] },
  ) => {
    const { channel, load } = parts;
    const lane = view.lanes.find((known) => known.load === load);
    const drivers = parts.drivers ?? lane?.drivers ?? [];
    const terminal = channel?.amplifier ?? load?.amplifier;
    const amplifier = terminal === undefined ? undefined : view.part('amplifier', partOfTerminal(terminal));
    const drive = lane === undefined ? undefined : laneDrive(lane);
    const ohm = lane === undefined ? undefined : nominalOhm(lane);
    if (load !== undefined) shown.add(load.id);
    for (const { id } of drivers) shown.add(id);
    rows.push({
      key,
      ...(channel === undefined ? {} : { channel }),
      ...(terminal === undefined ? {} : { terminal }),
      ...(amplifier === undefined ? {} : { amplifier }),
      ...(load === undefined ? {} : { load }),
      drivers,
      places: drivers.flatMap(({ place }) => view.part('place', place) ?? []),
      plays: playsOf(plan, channel),
      ...(drive === undefined ? {} : { watt: drive.watt }),
      ...(ohm === undefined ? {} : { ohm }),
      findings: [],
      at: 0,
    });
  };
  const channels = [...plan.channel].sort((a, b) => byName(a.output ?? a.id, b.output ?? b.id));
  for (const channel of channels) {
    const load =
      channel.amplifier === undefined
        ? undefined
        : plan.load.find(
            ({ amplifier, bridgedWith }) => channel.amplifier === amplifier || channel.amplifier === bridgedWith,
          );
    row(`channel ${channel.id}`, load === undefined ? { channel } : { channel, load });
  }
  for (const load of plan.load) if (!shown.has(load.id)) row(`load ${load.id}`, { load });
  for (const driver of plan.driver) if (!shown.has(driver.id)) row(`driver ${driver.id}`, { drivers: [driver] });
  placeFindings(plan, rows, findings);
  return rows;
}

function placeFindings(plan: Plan, rows: LaneRow[], findings: readonly PlanFinding[]): void {
  for (const group of likeFindings(findings)) {
    const ids = group.flatMap(({ place }) => idsIn(place));
    const named = rows.filter((lane) => {
      const leads = plan.lead.filter(({ from }) => from !== undefined && from === lane.terminal);
      const own = [lane.channel?.id, lane.load?.id, lane.terminal, ...lane.drivers.map(({ id }) => id)];
      const behind = lane.drivers.map(({ enclosure }) => enclosure);
      const known = [...own, ...behind, ...lane.places.map(({ id }) => id), ...leads.map(({ id }) => id)];
      return ids.some((id) => known.includes(id));
    });
    // An amplifier is named once, under the last of its channels.
    const amplified = named.length > 0 ? named : rows.filter(({ amplifier }) => ids.includes(amplifier?.id ?? ''));
    const last = amplified.at(-1);
    if (last === undefined) continue;
    if (last.findings.length === 0) last.at = columnOf(group[0].place);
    last.findings.push(group);
  }
}

/** Processor outputs that no channel has. */
export function spareOutputs(plan: Plan): string[] {
  const used = new Set(plan.channel.map(({ output }) => output));
  return plan.processor
    .flatMap(({ id, outputs }) => (outputs ?? []).map((output) => `${id}/${output.id}`))
    .filter((terminal) => !used.has(terminal));
}

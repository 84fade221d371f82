// A plan made from its lanes: who plays what, where and through which amplifier channel. The parts that every car has
// (battery, runs, fuses, leads, covers) follow. What only a tape or a meter can tell is left open. What must be proven is
// derived from the plan.
import { amplifierShelf, driverShelf, processorShelf, sourceShelf } from '../parts-library.ts';
import { emptyPlan, type PartOf, type Plan } from '../plan.ts';
import type { Network } from '../signal-parts.ts';

type Filter = NonNullable<PartOf<'channel'>['highPass']> | null;

/** A 24 dB Linkwitz-Riley edge: its two halves add up without inverting either. */
const at = (fHz: number | null): Filter => (fHz === null ? null : { family: 'linkwitz-riley', order: 4, fHz });

export interface LanePlan {
  key: string;
  model: keyof typeof driverShelf;
  side: 'left' | 'right' | 'centre';
  row: 'front' | 'second' | 'boot';
  position: NonNullable<PartOf<'place'>['position']>;
  cover: string;
  amplifier: string;
  highPassHz: number | null;
  lowPassHz: number | null;
}

export interface CarPlan {
  source: keyof typeof sourceShelf;
  amplifiers: Record<string, keyof typeof amplifierShelf>;
  lanes: LanePlan[];
}

/** Coils of one driver: side by side would be half the ohms of one, so they are put in series. */
function networkOf(driver: string, coils: number): Network {
  const all = Array.from({ length: coils }, (_, n) => `${driver}/${n + 1}`);
  return all.length === 1 ? all[0] : { s: all };
}

/** The panels of every car, as a person calls them. */
const coverNames: Record<string, string> = {
  'pillar-left': 'Left pillar trim',
  'pillar-right': 'Right pillar trim',
  'kick-left': 'Left kick panel',
  'kick-right': 'Right kick panel',
  'door-left': 'Left door card',
  'door-right': 'Right door card',
  'rear-door-left': 'Left rear door card',
  'rear-door-right': 'Right rear door card',
  'boot-floor': 'Boot floor',
};

/** What a cover of the plan hides; the cover is put into the plan when it is first spoken of. */
function coverOver(plan: Plan, id: string): string[] {
  const known = plan.cover.find((cover) => cover.id === id);
  if (known?.hides !== undefined) return known.hides;
  const hides: string[] = [];
  const name = coverNames[id];
  plan.cover.push({ id, ...(name === undefined ? {} : { name }), hides });
  return hides;
}

function addLane(plan: Plan, lane: LanePlan, n: number): void {
  const { key, side, row, position, cover, amplifier } = lane;
  const [driver, place, lead] = [`D${n}`, `P${n}`, `L${10 + n}`];
  const sheet = driverShelf[lane.model];
  plan.place.push({ id: place, name: key, side, row, position, covers: [cover] });
  plan.driver.push({ ...sheet, id: driver, name: lane.model, place });
  plan.channel.push({
    id: `C${n}`,
    name: key,
    output: `DSP/${n}`,
    amplifier,
    inputs: side === 'centre' ? ['DSP/left', 'DSP/right'] : [`DSP/${side}`],
    highPass: at(lane.highPassHz),
    lowPass: at(lane.lowPassHz),
    polarity: 1,
    gainDb: 0,
    delayMs: 0,
  });
  plan.load.push({ id: `N${n}`, name: key, amplifier, network: networkOf(driver, sheet.coils), polarity: 1 });
  plan.lead.push({ id: lead, kind: 'speaker', from: amplifier, to: driver, under: [cover] });
  coverOver(plan, cover).push(driver, lead);
}

function addPower(plan: Plan): void {
  plan.battery.push({ id: 'BAT', chemistry: 'agm' });
  plan.block.push({ id: 'BLOCK' });
  plan.run.push({ id: 'R1', name: 'battery to block', from: 'BAT', to: 'BLOCK' });
  plan.fuse.push({ id: 'F1', run: 'R1', family: 'strip-51' });
  [...plan.amplifier, ...plan.processor].forEach(({ id }, n) => {
    plan.run.push({ id: `R${n + 2}`, name: `block to ${id}`, from: 'BLOCK', to: id });
    plan.fuse.push({ id: `F${n + 2}`, run: `R${n + 2}`, family: 'strip-30' });
    plan.ground.push({ id: `G${n + 2}`, of: id });
  });
}

/** The plan of a car, each lane one processor channel, numbered in the order given. */
export function planFromLanes({ source, amplifiers, lanes }: CarPlan): Plan {
  const plan = emptyPlan();
  const sheet = sourceShelf[source];
  plan.vehicle.push({ id: 'vehicle' });
  plan.seat.push({ id: 'SEAT1', name: 'driver' });
  const adaptor = sheet.kind === 'speaker' ? 'differential' : 'none';
  const kind = sheet.kind === 'speaker' ? 'speaker' : 'line';
  const processor = structuredClone(processorShelf['Selwick P8']) as Omit<PartOf<'processor'>, 'id'>;
  const maxV = kind === 'speaker' ? 16 : 4;
  processor.inputs = ['left', 'right'].map((id) => ({ id, kind, maxV, from: `H/${id}`, adaptor }));
  plan.processor.push({ ...processor, id: 'DSP' });
  for (const [id, model] of Object.entries(amplifiers)) {
    plan.amplifier.push({ ...(structuredClone(amplifierShelf[model]) as Omit<PartOf<'amplifier'>, 'id'>), id });
  }
  const turnsOn = ['DSP', ...Object.keys(amplifiers)];
  plan.source.push({ ...(structuredClone(sheet) as Omit<PartOf<'source'>, 'id'>), id: 'H', turnsOn });
  lanes.forEach((lane, n) => {
    addLane(plan, lane, n + 1);
  });
  addPower(plan);
  return plan;
}

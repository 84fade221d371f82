// Which part speaks of which: so that what points nowhere is found, and what rests on a changed part is known.
import { coilsIn } from './networks.ts';
import { type Part, type PartKind, type Plan, partsOf } from './plan.ts';

/** One mention of another part or terminal. */
export interface Reference {
  kind: PartKind;
  /** The part that speaks. */
  id: string;
  field: string;
  /** A part's id, or PART/TERMINAL. */
  to: string;
  /** Kinds that would make sense there. */
  among: PartKind[];
}

type Mention = [field: string, to: string | undefined, among: PartKind[]];

const devices: PartKind[] = ['amplifier', 'processor', 'source'];
const many = (field: string, ids: readonly string[] | undefined, among: PartKind[]): Mention[] =>
  (ids ?? []).map((id) => [field, id, among]);

/** What each kind mentions. A kind that is not here mentions nothing. */
const mentions: { [Kind in PartKind]?: (part: Extract<Part, object> & Record<string, never>) => Mention[] } = {};

function says<Kind extends PartKind>(kind: Kind, of: (part: Plan[Kind][number]) => Mention[]): void {
  mentions[kind] = of as never;
}

says('cover', (part) => many('hides', part.hides, []));
says('place', (part) => many('covers', part.covers, ['cover']));
says('seat', (part) => (part.distances ?? []).map(({ place }) => ['distances', place, ['place']]));
says('source', (part) => many('turnsOn', part.turnsOn, devices));
says('processor', (part) => (part.inputs ?? []).map(({ from }) => ['inputs.from', from, ['source']]));
says('channel', (part) => [
  ['output', part.output, ['processor']],
  ['amplifier', part.amplifier, ['amplifier']],
  ...many('inputs', part.inputs, ['processor']),
]);
says('load', (part) => [
  ['amplifier', part.amplifier, ['amplifier']],
  ['bridgedWith', part.bridgedWith, ['amplifier']],
  ...many('network', part.network === undefined ? [] : [...new Set(coilsIn(part.network))], ['driver']),
]);
says('driver', (part) => [
  ['place', part.place, ['place']],
  ['enclosure', part.enclosure, ['enclosure']],
]);
says('enclosure', (part) => [['place', part.place, ['place']], ...many('covers', part.covers, ['cover'])]);
says('run', (part) => [
  ['from', part.from, ['battery', 'block']],
  ['to', part.to, ['battery', 'block', ...devices]],
  ...many('under', part.under, ['cover']),
]);
says('fuse', (part) => [['run', part.run, ['run']]]);
says('ground', (part) => [['of', part.of, ['battery', 'block', ...devices]]]);
says('lead', (part) => [
  ['from', part.from, ['driver', ...devices]],
  ['to', part.to, ['driver', ...devices]],
  ...many('under', part.under, ['cover']),
]);
says('reading', (part) => [['of', part.of, []], ...many('without', part.without, ['driver'])]);
says('holdPoint', (part) => [['of', part.of, []], ...many('behind', part.behind, ['cover'])]);

/** Every mention in a plan, those left open not counted. */
export function referencesIn(plan: Plan): Reference[] {
  return [...partsOf(plan)].flatMap(({ kind, part }) =>
    (mentions[kind]?.(part as never) ?? []).flatMap(([field, to, among]) =>
      to === undefined ? [] : [{ kind, id: part.id, field, to, among }],
    ),
  );
}

/** Terminals that a part has, as `PART/TERMINAL`. */
function terminalsOf(kind: PartKind, part: Part): string[] {
  const named = (list: readonly { id: string }[] | undefined) => (list ?? []).map(({ id }) => `${part.id}/${id}`);
  if (kind === 'driver') {
    const { coils = 1 } = part as Plan['driver'][number];
    return Array.from({ length: coils }, (_, n) => `${part.id}/${n + 1}`);
  }
  if (kind === 'source') return named((part as Plan['source'][number]).outputs);
  if (kind === 'amplifier') return named((part as Plan['amplifier'][number]).channels);
  if (kind !== 'processor') return [];
  const { inputs, outputs } = part as Plan['processor'][number];
  return [...named(inputs), ...named(outputs)];
}

/** Mentions of what is not there, or of a part of a kind that makes no sense in that field. */
export function danglingReferences(plan: Plan): Reference[] {
  const known = new Map<string, PartKind>();
  for (const { kind, part } of partsOf(plan)) {
    known.set(part.id, kind);
    for (const terminal of terminalsOf(kind, part)) known.set(terminal, kind);
  }
  return referencesIn(plan).filter(({ to, among }) => {
    const kind = known.get(to);
    return kind === undefined || (among.length > 0 && !among.includes(kind));
  });
}

// What a form needs of the plan: ranges of numbers, terminals and parts to choose from, ids that are free.
import { type Part, type PartKind, type Plan, partKinds, partSchemas } from '../../plan/plan.ts';
import type { TerminalKind } from './field-forms.ts';
import type { Range } from './quantity.ts';

interface Inner {
  def?: { innerType?: Inner };
  minValue?: number | null;
  maxValue?: number | null;
  isInt?: boolean;
  format?: string | null;
}

/** The range that the plan's form sets for a number. */
export function rangeOf(kind: PartKind, field: string): Range {
  let schema = (partSchemas[kind].shape as Record<string, unknown>)[field] as Inner | undefined;
  while (schema?.def?.innerType !== undefined) schema = schema.def.innerType;
  const { minValue, maxValue, format } = schema ?? {};
  const whole = format === 'safeint';
  return { min: minValue ?? 0, max: maxValue ?? 1e9, ...(whole ? { whole } : {}) };
}

/** A part as a list shows it: its id and what it is. */
export function partLabel(plan: Plan, id: string): string {
  for (const kind of partKinds) {
    const found = (plan[kind] as Part[]).find((known) => known.id === id);
    if (found === undefined) continue;
    const { name } = found as { name?: string };
    const place =
      kind === 'driver' ? plan.place.find((known) => known.id === (found as { place?: string }).place) : undefined;
    const words = [name, place?.name].filter((word) => word !== undefined && word !== id);
    return words.length === 0 ? id : `${id}: ${words.join(', ')}`;
  }
  return id;
}

/** Terminals that a field may name, with their words. */
export function terminalsFor(plan: Plan, kind: TerminalKind): { value: string; words: string }[] {
  const named = (part: { id: string; name?: string }, list: readonly { id: string }[] | undefined) =>
    (list ?? []).map(({ id }) => ({
      value: `${part.id}/${id}`,
      words: `${part.id} ${id}${part.name === undefined ? '' : ` (${part.name})`}`,
    }));
  const of = {
    'processor-output': () => plan.processor.flatMap((part) => named(part, part.outputs)),
    'processor-input': () => plan.processor.flatMap((part) => named(part, part.inputs)),
    amplifier: () => plan.amplifier.flatMap((part) => named(part, part.channels)),
    source: () => plan.source.flatMap((part) => named(part, part.outputs)),
    driver: () =>
      plan.driver.flatMap((part) =>
        Array.from({ length: part.coils ?? 1 }, (_, n) => ({
          value: `${part.id}/${n + 1}`,
          words: `${partLabel(plan, part.id)}, coil ${n + 1}`,
        })),
      ),
  };
  if (kind !== 'any') return of[kind]();
  return [...of.amplifier(), ...of['processor-output'](), ...of.source(), ...of.driver()];
}

const letters: { [Kind in PartKind]: string } = {
  vehicle: 'vehicle',
  cover: 'cover',
  place: 'P',
  seat: 'SEAT',
  source: 'H',
  processor: 'DSP',
  amplifier: 'A',
  channel: 'C',
  load: 'N',
  driver: 'D',
  enclosure: 'BOX',
  battery: 'BAT',
  block: 'BLOCK',
  run: 'R',
  fuse: 'F',
  ground: 'G',
  lead: 'L',
  reading: 'M',
  holdPoint: 'HP',
};

/** An id for a new part that nothing in the plan has. */
export function freshPartId(plan: Plan, kind: PartKind): string {
  if (kind === 'vehicle') return 'vehicle';
  const taken = new Set(partKinds.flatMap((known) => (plan[known] as Part[]).map(({ id }) => id)));
  if (kind === 'amplifier') {
    const free = [...'ABCDEFGHJKLMNOPQ'].find((letter) => !taken.has(letter));
    if (free !== undefined) return free;
  }
  for (let n = 1; ; n++) {
    const id = `${letters[kind]}${n}`;
    if (!taken.has(id)) return id;
  }
}

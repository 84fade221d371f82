// The ends of a lead in words: what stands there, and which of its terminals.
import { partOfTerminal } from '../../plan/networks.ts';
import type { PlanView } from '../rules/plan-view.ts';

export interface LeadEnd {
  /** As the plan writes it, such as `A/1` or `D1`. */
  terminal: string;
  /** Such as "Haldane Q4, channel 1 (A/1)" or "Ottery T25, Pillar, left (D1)". */
  words: string;
  /** The same for a label: "A/1 Haldane Q4", "D1 Pillar, left". */
  label: string;
}

const listed = (parts: (string | undefined)[]) => parts.filter((part) => part !== undefined && part !== '').join(', ');

/** What stands at `terminal`, without its id; undefined where the plan has no such part. */
function standing({ part }: PlanView, terminal: string): string | undefined {
  const id = partOfTerminal(terminal);
  const own = terminal === id ? undefined : terminal.slice(id.length + 1);
  const numbered = (word: string) => (own === undefined ? undefined : `${word} ${own}`);
  const amplifier = part('amplifier', id);
  if (amplifier !== undefined) return listed([amplifier.name ?? 'amplifier', numbered('channel')]);
  const processor = part('processor', id);
  if (processor !== undefined) {
    const input = processor.inputs?.some((known) => known.id === own);
    return listed([processor.name ?? 'processor', numbered(input ? 'input' : 'output')]);
  }
  const source = part('source', id);
  if (source !== undefined) return listed([source.name ?? 'source', numbered('output')]);
  const driver = part('driver', id);
  if (driver === undefined) return undefined;
  const place = part('place', driver.place);
  const coil = (driver.coils ?? 1) > 1 ? numbered('coil') : undefined;
  return listed([driver.name ?? driver.kind ?? 'driver', coil, place?.name ?? place?.id]);
}

/** Where it is, for a driver; else what it is called. */
function nearby({ part }: PlanView, id: string): string | undefined {
  const driver = part('driver', id);
  if (driver === undefined)
    return part('amplifier', id)?.name ?? part('processor', id)?.name ?? part('source', id)?.name;
  const place = part('place', driver.place);
  return place?.name ?? driver.name ?? place?.id;
}

/** One end of a lead; null while it is not planned. */
export function leadEnd(view: PlanView, terminal: string | undefined): LeadEnd | null {
  if (terminal === undefined) return null;
  const what = standing(view, terminal);
  const short = nearby(view, partOfTerminal(terminal));
  return {
    terminal,
    words: what === undefined ? terminal : `${what} (${terminal})`,
    label: short === undefined ? terminal : `${terminal} ${short}`,
  };
}

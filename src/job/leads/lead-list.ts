// Every lead of a plan with both its ends, what a meter should read on it and what it read.
import { z } from 'zod';
import { nearestGauge } from '../../electrical/wire-area.ts';
import { leadKinds } from '../../plan/lead-parts.ts';
import { partOfTerminal } from '../../plan/networks.ts';
import type { PartOf, Plan } from '../../plan/plan.ts';
import { markedAreaMm2 } from '../rules/cables.ts';
import { expectedReading, laneOfLead, mainReading, readWiring } from '../rules/lead-readings.ts';
import { type PlanView, planView } from '../rules/plan-view.ts';
import { listed } from '../rules/words.ts';
import { leadEnd } from './lead-ends.ts';
import { byWalk } from './walk-order.ts';

const reads = z.union([z.number(), z.literal('open')]);
const end = z.object({ terminal: z.string(), words: z.string(), label: z.string() });

export const leadVerdicts = ['fits', 'differs', 'ambiguous', 'doubtful', 'not-measured', 'cannot-say'] as const;

export const leadRowSchema = z.object({
  id: z.string(),
  name: z.string().nullable(),
  kind: z.enum(leadKinds).nullable(),
  from: end.nullable().describe('null while it is not planned'),
  to: end.nullable(),
  colour: z.string().nullable(),
  lengthM: z.number().nullable(),
  areaMm2: z.number().nullable().describe('by its mark; where a gauge is marked, the area of that gauge'),
  gauge: z.number().nullable().describe('American; 0 is 1/0, -1 is 2/0; the nearest where an area is marked'),
  material: z.string().nullable(),
  expected: z
    .object({ lowOhm: reads, midOhm: reads, highOhm: reads })
    .nullable()
    .describe("at the amplifier's end, amplifier unplugged; with the meter's own leads where they were read"),
  measured: z
    .object({ reading: z.string(), ohm: reads, probesOhm: z.number().nullable(), temperatureC: z.number().nullable() })
    .nullable(),
  toBody: z
    .object({ reading: z.string(), ohm: reads, verdict: z.enum(['clear', 'touches', 'doubtful']) })
    .nullable()
    .describe('from the lead to body metal'),
  verdict: z.enum(leadVerdicts),
  says: z.string().describe('the verdict in words, with its reason'),
  like: z.array(z.string()).describe('wirings that the reading fits, the nearest first'),
  proof: z.string().nullable().describe('what proved its hold point'),
  under: z.array(z.string()).describe('covers that it runs under'),
});

export type LeadRow = z.infer<typeof leadRowSchema>;

/** What is known of the measurements beside the plan that holds them. */
export interface LeadMeasurements {
  /** Ids of readings that rest on what has changed since. */
  stale?: readonly string[];
  /** What proved that a lead is connected as labelled, by its id, beside what the plan states. */
  proofs?: ReadonlyMap<string, string>;
}

/** From here up a lead does not touch the body. */
const clearOhm = 100_000;

/** A lead whose kind nobody said is taken for one to a driver. */
export const isSpeakerLead = ({ kind }: PartOf<'lead'>): boolean => kind === undefined || kind === 'speaker';

type Judged = Pick<LeadRow, 'verdict' | 'says' | 'like'>;

function judged(
  view: PlanView,
  lead: PartOf<'lead'>,
  reading: PartOf<'reading'> | undefined,
  counting: readonly PartOf<'reading'>[],
): Judged {
  const said = (verdict: LeadRow['verdict'], says: string, like: string[] = []): Judged => ({ verdict, says, like });
  if (!isSpeakerLead(lead)) return said('cannot-say', 'Only a speaker lead has a coil at its end to be read.');
  if (reading?.value === undefined) return said('not-measured', 'It has not been read yet.');
  if (!counting.includes(reading)) return said('doubtful', 'It was read before the plan changed: read it again.');
  const lane = laneOfLead(view, lead);
  const read = lane === undefined ? undefined : readWiring(lane, lead, counting, view.lanes);
  if (read === undefined) return said('cannot-say', 'The direct-current resistance of its coils is not known.');
  const { verdict, matches } = read;
  if (matches.length === 0) return said('differs', 'It reads like no single mistake.');
  if (!matches.includes('as planned')) return said('differs', `It looks like ${listed(matches)}.`, matches);
  if (verdict === 'unique') return said('fits', 'As planned.', matches);
  return said(
    'ambiguous',
    `It fits the plan, and ${listed(matches.filter((name) => name !== 'as planned'))} too: unplug one driver, read again and say so.`,
    matches,
  );
}

function toBodyOf(reading: PartOf<'reading'> | undefined, stale: boolean): LeadRow['toBody'] {
  if (reading?.value === undefined) return null;
  const clear = reading.value === 'open' || reading.value >= clearOhm;
  const verdict = stale ? 'doubtful' : clear ? 'clear' : 'touches';
  return { reading: reading.id, ohm: reading.value, verdict };
}

function rowOf(
  view: PlanView,
  lead: PartOf<'lead'>,
  stale: ReadonlySet<string>,
  proofs: ReadonlyMap<string, string>,
): LeadRow {
  const { plan } = view;
  const readings = view.readings(lead.id, 'resistance');
  const reading = mainReading(readings);
  const counting = readings.filter(({ id }) => !stale.has(id));
  const body = view.readings(lead.id, 'to-body').at(-1);
  const marked = markedAreaMm2(lead) ?? null;
  const expected = isSpeakerLead(lead) ? expectedReading(view, lead, reading) : undefined;
  const measured =
    reading?.value === undefined
      ? null
      : {
          reading: reading.id,
          ohm: reading.value,
          probesOhm: reading.probesOhm ?? null,
          temperatureC: reading.temperatureC ?? null,
        };
  return {
    id: lead.id,
    name: lead.name ?? null,
    kind: lead.kind ?? null,
    from: leadEnd(view, lead.from),
    to: leadEnd(view, lead.to),
    colour: lead.colour ?? null,
    lengthM: lead.lengthM ?? null,
    areaMm2: marked,
    gauge: lead.areaMm2 === undefined ? (lead.gauge ?? null) : nearestGauge(lead.areaMm2),
    material: lead.material ?? null,
    expected: expected ?? null,
    measured,
    toBody: toBodyOf(body, stale.has(body?.id ?? '')),
    ...judged(view, lead, reading, counting),
    proof:
      proofs.get(lead.id) ??
      plan.holdPoint.find(({ of, proof }) => of === lead.id && proof !== undefined)?.proof ??
      null,
    under: (lead.under ?? []).map((id) => view.part('cover', id)?.name ?? id),
  };
}

/** Where a lead ends in the car: at its driver; a lead between devices has no place. */
function placeOfLead(view: PlanView, { from, to }: PartOf<'lead'>): PartOf<'place'> | undefined {
  const drivers = [to, from].map((terminal) => view.part('driver', partOfTerminal(terminal ?? '')));
  return view.part('place', drivers.find((driver) => driver !== undefined)?.place);
}

/**
 * The lead list: a row for each lead, in the order in which a person comes by their far ends (down the left side, across
 * the boot, up the right side; leads between devices last).
 *
 * @param plan          with its readings
 * @param measurements  which of those readings no longer count; they are shown, and their verdict is `doubtful`
 * @returns lengths in m, areas in mm2, readings in ohm or "open"; what is not known is null
 */
export function leadList(plan: Plan, { stale = [], proofs = new Map() }: LeadMeasurements = {}): LeadRow[] {
  const view = planView(plan);
  const staleIds = new Set(stale);
  return plan.lead
    .map((lead) => ({ id: lead.id, lead, place: placeOfLead(view, lead) }))
    .sort(byWalk)
    .map(({ lead }) => rowOf(view, lead, staleIds, proofs));
}

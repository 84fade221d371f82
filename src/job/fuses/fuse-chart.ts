// Every fuse of a plan, the cable behind it and what flows there; runs without a fuse too.
import { z } from 'zod';
import type { PartOf, Plan } from '../../plan/plan.ts';
import { allowedA, cableWords } from '../rules/cables.ts';
import { runCarries } from '../rules/currents.ts';
import { type Finding, findingsOf } from '../rules/findings.ts';
import { fuseDesign } from '../rules/fuse-design.ts';
import { type PlanView, planView } from '../rules/plan-view.ts';

export const fuseRowSchema = z.object({
  fuse: z.string().nullable().describe('null where the run has none'),
  family: z.string().nullable(),
  ratedA: z.number().nullable(),
  atM: z.number().nullable().describe('along the run from its feeding end'),
  fitted: z.boolean().nullable(),
  run: z.string(),
  from: z.string().nullable(),
  to: z.string().nullable(),
  cable: z.string().describe('the cable behind the fuse, as its mark says'),
  allowedA: z.number().nullable().describe('what that cable may carry where it lies'),
  designA: z
    .number()
    .nullable()
    .describe('least rating that holds: by the maker of the amplifier, or music and a fifth to spare'),
  musicA: z.number().nullable().describe('what flows in music, at the loudest that a job allows'),
  sineA: z.number().nullable().describe('what flows at full sine'),
  verdict: z.enum(['holds', 'larger-than-cable', 'opens-in-use', 'no-fuse', 'cannot-say']),
  says: z.string(),
});

export type FuseRow = z.infer<typeof fuseRowSchema>;

/** What stands at the end of a run, in words. */
function endWords({ part }: PlanView, id: string | undefined): string | null {
  if (id === undefined) return null;
  const known = part('amplifier', id) ?? part('processor', id) ?? part('source', id) ?? part('block', id);
  const name = (known ?? part('battery', id))?.name;
  return name === undefined ? id : `${name} (${id})`;
}

function rowOf(
  view: PlanView,
  run: PartOf<'run'>,
  fuse: PartOf<'fuse'> | null,
  found: ReadonlyMap<string, Finding>,
): FuseRow {
  const cableA = allowedA(run);
  const carried = runCarries(view, run);
  const said = (verdict: FuseRow['verdict'], says: string) => ({ verdict, says });
  const at = (rule: string) => (fuse === null ? undefined : found.get(`${rule} fuse ${fuse.id}`));
  const [over, small] = [at('E-01'), at('E-06')];
  const opens = small?.severity === 'fix' ? small.message : undefined;
  const missing = [
    ...(fuse?.ratedA === undefined ? ['its rating'] : []),
    ...(cableA === undefined ? ['the cable behind it'] : []),
    ...(carried === undefined ? ['what flows in it'] : []),
  ];
  const judged =
    fuse === null
      ? said('no-fuse', 'No fuse is planned here.')
      : over !== undefined
        ? said('larger-than-cable', over.message)
        : opens !== undefined
          ? said('opens-in-use', opens)
          : missing.length > 0
            ? said('cannot-say', `Not known: ${missing.join(', ')}.`)
            : said(
                'holds',
                `It holds in music and protects its cable.${small === undefined ? '' : ` ${small.message}`}`,
              );
  return {
    fuse: fuse?.id ?? null,
    family: fuse?.family ?? null,
    ratedA: fuse?.ratedA ?? null,
    atM: fuse?.atM ?? null,
    fitted: fuse?.fitted ?? null,
    run: run.id,
    from: endWords(view, run.from),
    to: endWords(view, run.to),
    cable: cableWords(run),
    allowedA: cableA ?? null,
    designA: fuseDesign(view, run)?.designA ?? null,
    musicA: carried?.musicA ?? null,
    sineA: carried?.sineA ?? null,
    ...judged,
  };
}

/**
 * The fuse chart: a row for each fuse, and one for each run without any, from the battery outwards as the plan lists them.
 *
 * @returns currents in A; what is not known is null
 */
export function fuseChart(plan: Plan): FuseRow[] {
  const view = planView(plan);
  const found = new Map(findingsOf(plan).findings.map((one) => [`${one.id} ${one.place}`, one]));
  return plan.run.flatMap((run) => {
    const fuses = view.fusesOf(run.id);
    return fuses.length === 0 ? [rowOf(view, run, null, found)] : fuses.map((fuse) => rowOf(view, run, fuse, found));
  });
}

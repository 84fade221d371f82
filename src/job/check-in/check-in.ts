// A car looked over twice: what was tried when it came, what again at Refit, and what became of it in between.
import { z } from 'zod';
import { idSchema, timeSchema } from '../entries.ts';
import type { JobState } from '../projections/job-state.ts';
import { counted, listed } from '../rules/words.ts';
import { answerVerdicts, type CheckCircumstances, expectedHere, judgedAnswer } from './answer-verdict.ts';
import { type CheckStage, checkUnits, type Found, foundSchema, plainCheckValue } from './check-forms.ts';
import { type Check, checkGroups, checkNamed, checks } from './checks.ts';
import { changes, differenceOf } from './difference.ts';

const hows = ['said', 'seen', 'measured', 'photo', 'take'] as const;

const answerSchema = z.object({
  entry: idSchema,
  when: timeSchema,
  who: z.string(),
  found: foundSchema,
  verdict: z.enum(answerVerdicts).describe('kept: a photo, a take or words, which a person judges'),
  says: z.string(),
  why: z.string().exactOptional(),
});

const readingSchema = z.object({
  entry: idSchema,
  when: timeSchema,
  value: z.number().describe('in the plain unit, V or A'),
  afterMin: z.number().nullable(),
});

export const checkReportSchema = z.object({
  check: z.string(),
  group: z.enum(checkGroups),
  name: z.string(),
  says: z.string().describe('how it is tried'),
  caution: z.string().nullable(),
  answers: z.object({ arrive: z.array(z.enum(hows)), refit: z.array(z.enum(hows)) }),
  unit: z.enum(checkUnits).nullable(),
  expected: z
    .object({
      low: z.number(),
      high: z.number(),
      unit: z.enum(['V', 'A']),
      source: z.object({ kind: z.enum(['standard', 'practice']), says: z.string() }),
    })
    .nullable(),
  arrive: answerSchema.nullable().describe('the last answer'),
  refit: answerSchema.nullable(),
  readings: z
    .object({ arrive: z.array(readingSchema), refit: z.array(readingSchema) })
    .describe('all that meters read, the oldest first'),
  difference: z.object({ change: z.enum(changes), says: z.string() }),
});

const countSchema = z.object({ done: z.number().int(), open: z.number().int(), faults: z.number().int() });

export const checkInSchema = z.object({
  checks: z.array(checkReportSchema).describe('in the order in which a car is walked, marks last'),
  counts: z.object({ arrive: countSchema, refit: countSchema }),
  says: z.object({ arrive: z.string(), refit: z.string() }).describe('a sentence for each stage'),
});

export type CheckReport = z.infer<typeof checkReportSchema>;
export type CheckIn = z.infer<typeof checkInSchema>;
type Given = JobState['checks'][number];

const isDone = (report: CheckReport, stage: CheckStage) =>
  report[stage] !== null && report[stage]?.verdict !== 'not-tried';

function answerOf(check: Check, given: Given | undefined, around: CheckCircumstances): CheckReport['arrive'] {
  if (given === undefined) return null;
  const { entry, when, who, found } = given;
  return { entry, when, who, found, ...judgedAnswer(check, found, around) };
}

function readingsOf(given: readonly Given[], expectedUnit: string | undefined): CheckReport['readings']['arrive'] {
  return given.flatMap(({ entry, when, found }) => {
    if (found.how !== 'measured') return [];
    const { value, unit } = plainCheckValue(found.value, found.unit);
    return unit === expectedUnit ? [{ entry, when, value, afterMin: found.afterMin ?? null }] : [];
  });
}

function reportOf(check: Check, given: readonly Given[], around: CheckCircumstances): CheckReport {
  const { expected } = check;
  const at = (stage: CheckStage) => given.filter((one) => one.at === stage);
  const [arrive, refit] = [at('arrive'), at('refit')];
  const last = (list: readonly Given[]) => answerOf(check, list.at(-1), around);
  const [before, now] = [last(arrive), last(refit)];
  const value = (list: readonly Given[]) => readingsOf(list, expected?.unit).at(-1)?.value ?? null;
  return {
    check: check.id,
    group: check.group,
    name: check.name,
    says: check.says,
    caution: check.caution ?? null,
    answers: { arrive: [...check.answers.arrive], refit: [...check.answers.refit] },
    unit: check.unit ?? null,
    expected:
      expected === undefined
        ? null
        : {
            ...expectedHere(expected, value(refit) ?? value(arrive), around.systemVoltageV),
            unit: expected.unit,
            source: expected.source,
          },
    arrive: before,
    refit: now,
    readings: { arrive: readingsOf(arrive, expected?.unit), refit: readingsOf(refit, expected?.unit) },
    difference: differenceOf(check, before, now, around.systemVoltageV),
  };
}

function countsOf(reports: readonly CheckReport[], stage: CheckStage): z.infer<typeof countSchema> {
  const done = reports.filter((report) => isDone(report, stage)).length;
  const faults = reports.filter((report) => report[stage]?.verdict === 'fault').length;
  // A mark is found, not asked for; at Refit those of Arrive are.
  const asked = reports.filter(({ group, arrive }) => group !== 'marks' || (stage === 'refit' && arrive !== null));
  return { done, open: asked.filter((report) => !isDone(report, stage)).length, faults };
}

function arriveSentence(reports: readonly CheckReport[], { done, open }: z.infer<typeof countSchema>): string {
  if (done === 0) return 'Nothing was looked over yet.';
  const faults = reports.filter(({ arrive }) => arrive?.verdict === 'fault').map(({ name }) => name.toLowerCase());
  const doubtful = reports
    .filter(({ arrive }) => arrive?.found.how === 'measured' && arrive.verdict === 'cannot-tell')
    .map(({ name, arrive }) => `${name}: ${arrive?.says}, perhaps not asleep yet. `);
  const came = faults.length === 0 ? '' : ` It came with faults: ${listed(faults)}.`;
  return `${doubtful.join('')}${open === 0 ? 'All was looked over.' : `${counted(open, 'check')} still open.`}${came}`;
}

function refitSentence(reports: readonly CheckReport[], { done, open }: z.infer<typeof countSchema>): string {
  if (done === 0) return 'Nothing was looked over again yet.';
  const worse = reports.filter(({ difference }) => difference.change === 'worse').map(({ name }) => name.toLowerCase());
  const left = open === 0 ? 'All was looked over again.' : `${counted(open, 'check')} still open.`;
  if (worse.length === 0) return `${left} Nothing got worse.`;
  return `Worse than it came: ${listed(worse)}. ${left}`;
}

/** Everything that is looked over in a job, with both answers and what became of it. */
export function checkInOf(state: JobState): CheckIn {
  const around: CheckCircumstances = {
    systemVoltageV: state.plan.parts.vehicle.at(0)?.systemVoltageV,
    takes: new Map(state.takes.filter(({ kept }) => kept).map(({ take, name }) => [take, name])),
    photos: new Map(state.photos.map(({ photo, name }) => [photo, name])),
  };
  const marks = [...new Set(state.checks.map(({ check }) => check))]
    .filter((id) => checkNamed(id)?.group === 'marks')
    .sort((a, b) => Number(a.slice(5)) - Number(b.slice(5)));
  const all = [...checks, ...marks.flatMap((id) => checkNamed(id) ?? [])];
  const reports = all.map((check) =>
    reportOf(
      check,
      state.checks.filter((given) => given.check === check.id),
      around,
    ),
  );
  const counts = { arrive: countsOf(reports, 'arrive'), refit: countsOf(reports, 'refit') };
  const says = { arrive: arriveSentence(reports, counts.arrive), refit: refitSentence(reports, counts.refit) };
  return { checks: reports, counts, says };
}

/** Whether an answer of this kind may be given there, and whether its photo or take is there: for wishes. */
export const mayAnswer = (check: Check, at: CheckStage, how: Found['how']) => check.answers[at].includes(how);

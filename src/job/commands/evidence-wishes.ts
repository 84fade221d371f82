// What evidence for hold points comes to: it is written down as it was given, whatever it proves; refused is what could
// prove nothing.
import { failure, type Result, success } from '../../base/result.ts';
import type { EntryData } from '../entry-kinds.ts';
import { type Evidence, plainValue } from '../hold-points/evidence-forms.ts';
import { type HoldPoint, holdPointsOf } from '../hold-points/hold-points.ts';
import { rangeWords } from '../hold-points/planned-points.ts';
import type { JobState } from '../projections/job-state.ts';
import type { CommandOf } from './commands.ts';

type EvidenceFact = EntryData<'evidence-given'>;

const refused = (code: string, message: string, where: string, mend: string): Result<never> =>
  failure({ code, message, where, mend });

/** How a kind of evidence is called. */
const howWords = { measured: 'a measured value', take: 'a take', photo: 'a photo', seen: 'what somebody saw' } as const;

function unfit({ id, accepts, expected, closes }: HoldPoint, evidence: Evidence): Result<never> | null {
  if (!accepts.includes(evidence.how)) {
    const how = accepts.map((known) => howWords[known]).join(' or ');
    return refused('evidence-unfit', `${id} is proven by ${how}, not by ${howWords[evidence.how]}.`, id, closes);
  }
  if (evidence.how !== 'measured' || expected === null) return null;
  const { unit } = plainValue(evidence);
  if (unit === expected.unit) return null;
  const message = `${id} is read in ${expected.unit}, not in ${unit}.`;
  return refused('unit-unfit', message, id, `Expected is ${rangeWords(expected)}.`);
}

/** Evidence as a fact; a value outside what is expected is written down too, and closes nothing. */
export function evidenceGiven(state: JobState, wish: CommandOf<'giveEvidence'>): Result<EvidenceFact> {
  const { evidence } = wish;
  const holdPoints = [...new Set(wish.holdPoints)];
  const known = new Map(holdPointsOf(state).map((point) => [point.id, point]));
  for (const id of holdPoints) {
    const point = known.get(id);
    if (point === undefined) {
      const mend = '"kickpanel job hold-points JOB" lists them; the plan opens them.';
      return refused('hold-point-unknown', 'The job has no such hold point.', id, mend);
    }
    const wrong = unfit(point, evidence);
    if (wrong !== null) return wrong;
  }
  if (evidence.how === 'measured' && holdPoints.length > 1) {
    const mend = 'Give each hold point a reading of its own.';
    return refused('one-reading-each', 'One reading proves one hold point.', holdPoints[1], mend);
  }
  if (evidence.how === 'take' && !state.takes.some(({ take, kept }) => kept && take === evidence.take)) {
    const mend = 'Choose one of its takes that is kept.';
    return refused('take-unknown', 'The job has no such take, or it was set aside.', evidence.take, mend);
  }
  if (evidence.how === 'photo' && !state.photos.some(({ photo }) => photo === evidence.photo)) {
    const mend = 'Attach it first, or choose one of its photos.';
    return refused('photo-unknown', 'The job has no such photo, or it was taken back.', evidence.photo, mend);
  }
  // A gain read with a tone or a meter of its own has another target, which is computed when it is judged.
  const asListed = evidence.how === 'measured' && evidence.toneDbfs === undefined && evidence.meterHz === undefined;
  const expected = asListed ? known.get(holdPoints[0])?.expected : null;
  return success({ holdPoints, evidence, ...(expected ? { expected } : {}) });
}

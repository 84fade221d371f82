// What a check of the car comes to as a fact: refused is what the list does not ask, or what names nothing that is there.
import { failure, type Result, success } from '../../base/result.ts';
import { checkUnits, plainCheckValue } from '../check-in/check-forms.ts';
import { mayAnswer } from '../check-in/check-in.ts';
import { type Check, checkNamed, checks } from '../check-in/checks.ts';
import type { EntryData } from '../entry-kinds.ts';
import { type PersonalRecord, personalHash } from '../personal.ts';
import type { JobState } from '../projections/job-state.ts';
import { listed } from '../rules/words.ts';
import type { CommandOf } from './commands.ts';

type Wish = CommandOf<'recordCheck'>;
export interface CheckFact {
  data: EntryData<'checked'>;
  records: PersonalRecord[];
}

const refused = (code: string, message: string, where: string, mend: string): Result<never> =>
  failure({ code, message, where, mend });

const howWords = {
  said: 'words of the owner',
  seen: 'what somebody found',
  measured: 'a measured value',
  photo: 'a photo',
  take: 'a take',
} as const;

function unfit(state: JobState, check: Check, { at, found }: Wish): Result<never> | null {
  const { id, name } = check;
  if (!mayAnswer(check, at, found.how)) {
    const ways = check.answers[at].map((how) => howWords[how]).join(' or ');
    return refused('answer-unfit', `${name} takes ${ways} here, not ${howWords[found.how]}.`, id, check.says);
  }
  if (found.how === 'measured' && check.expected !== undefined) {
    const { unit } = check.expected;
    if (plainCheckValue(found.value, found.unit).unit !== unit) {
      const fitting = checkUnits.filter((known) => plainCheckValue(1, known).unit === unit);
      return refused('unit-unfit', `${name} is not read in ${found.unit}.`, id, `Give it in ${fitting.join(' or ')}.`);
    }
  }
  if (found.how === 'photo' && !state.photos.some(({ photo }) => photo === found.photo)) {
    const mend = 'Attach it first, or choose one of its photos.';
    return refused('photo-unknown', 'The job has no such photo, or it was taken back.', found.photo, mend);
  }
  if (found.how === 'take' && !state.takes.some(({ take, kept }) => kept && take === found.take)) {
    const mend = 'Choose one of its takes that is kept.';
    return refused('take-unknown', 'The job has no such take, or it was set aside.', found.take, mend);
  }
  return null;
}

/** A check as a fact. Words of a person go into a record of their own, which can be erased; `fresh` names and salts it. */
export function checkMade(
  state: JobState,
  wish: Wish,
  fresh: { record: string; salt: string },
  sha256: (text: string) => string,
): Result<CheckFact> {
  const { at, check: id, found } = wish;
  const check = checkNamed(id);
  if (check === null) {
    const mend = `The checks: ${listed(checks.map((known) => known.id))}, and mark-1, mark-2 for what the car came with.`;
    return refused('check-unknown', 'There is no such check.', id, mend);
  }
  const wrong = unfit(state, check, wish);
  if (wrong !== null) return wrong;
  if (found.how !== 'said') return success({ data: { at, check: id, found }, records: [] });
  const { record, salt } = fresh;
  const personal = { record, hash: personalHash(salt, found.words, sha256) };
  const records = [{ id: record, job: state.id, kind: 'complaint' as const, salt, value: found.words }];
  return success({ data: { at, check: id, found: { how: 'said', personal } }, records });
}

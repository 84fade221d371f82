// `job check-in JOB [CHECK ...]`: the car looked over as it came and again at Refit, and what became of it.
import { failure, type Result, success } from '../../base/result.ts';
import { checkStages, checkUnits, findings } from '../../job/check-in/check-forms.ts';
import { checkInOf } from '../../job/check-in/check-in.ts';
import { checkNamed, checks, nextMark } from '../../job/check-in/checks.ts';
import type { Command as Wish } from '../../job/commands/commands.ts';
import type { JobState } from '../../job/projections/job-state.ts';
import { jobView } from '../../store/job-views.ts';
import type { CommandOutcome } from '../command.ts';
import { nearestWord } from '../nearest-word.ts';
import { numberValue, wordValue } from '../option-values.ts';
import { checkInText } from './check-in-text.ts';
import { issuesOutcome, type JobCall, type JobPart } from './job-call.ts';
import { carriedOut, stateNamed } from './job-state.ts';
import { photoAsked } from './photo-files.ts';
import { wishFrom } from './wishes.ts';

type Fields = Record<string, unknown>;

function measuredFrom({ given }: JobCall, text: string): Result<Fields> {
  const unitText = given('unit');
  if (unitText === undefined) {
    const mend = `Give --unit, one of ${checkUnits.join(', ')}.`;
    return failure({ code: 'option-missing', message: 'A reading needs its unit.', where: '--unit', mend });
  }
  const afterText = given('after');
  const value = numberValue('measured', text, { min: 0, max: 1e6 });
  const unit = wordValue('unit', unitText, checkUnits);
  const after = afterText === undefined ? success(undefined) : numberValue('after', afterText, { min: 0, max: 10_080 });
  if (!value.ok || !unit.ok || !after.ok) {
    return failure(...[value, unit, after].flatMap((part) => (part.ok ? [] : part.issues)));
  }
  const fields = { how: 'measured', value: value.value, unit: unit.value };
  return success(after.value === undefined ? fields : { ...fields, afterMin: after.value });
}

/** What was found, and what has to be entered before it. */
async function foundFrom(call: JobCall, state: JobState): Promise<Result<{ found: Fields; before: Wish[] }>> {
  const { given } = call;
  const [measured, result, photo, take, words] = ['measured', 'result', 'photo', 'take', 'words'].map(given);
  const count = [measured, result, photo, take].filter((one) => one !== undefined).length;
  if (count > 1 || (count === 0 && words === undefined)) {
    const message = count === 0 ? 'What was found?' : 'One answer at a time.';
    const mend = 'Give --measured VALUE --unit UNIT, --result ok|fault, --photo FILE, --take ID, or --words alone.';
    const code = count === 0 ? 'option-missing' : 'options-conflict';
    return failure({ code, message, where: 'job check-in', mend });
  }
  const more = words === undefined ? {} : { words };
  if (measured !== undefined) {
    const fields = measuredFrom(call, measured);
    return fields.ok ? success({ found: { ...fields.value, ...more }, before: [] }) : fields;
  }
  if (result !== undefined) {
    const found = wordValue('result', result, findings);
    return found.ok ? success({ found: { how: 'seen', found: found.value, ...more }, before: [] }) : found;
  }
  if (take !== undefined) return success({ found: { how: 'take', take, ...more }, before: [] });
  if (photo === undefined) return success({ found: { how: 'said', words }, before: [] });
  const asked = await photoAsked(call, state, photo);
  if (!asked.ok) return asked;
  return success({ found: { how: 'photo', photo: asked.value.photo, ...more }, before: asked.value.wishes });
}

/** "mark" is the next mark that nobody has named. */
function checkAsked(state: JobState, text: string): Result<string> {
  const id = text === 'mark' ? (nextMark(state.checks.map(({ check }) => check)) ?? text) : text;
  if (checkNamed(id) !== null) return success(id);
  const names = [...checks.map((check) => check.id), 'mark'];
  const near = nearestWord(text, names);
  const all = `The checks: ${names.join(', ')}.`;
  const mend = near === null ? all : `Did you mean ${near}? ${all}`;
  return failure({ code: 'check-unknown', message: `There is no check "${text}".`, where: text, mend });
}

async function outcome({ workshop, given }: JobCall, state: JobState, appended: unknown[]): Promise<CommandOutcome> {
  const at = given('at') === undefined ? null : wordValue('at', given('at') as string, checkStages);
  if (at !== null && !at.ok) return issuesOutcome(...at.issues);
  const checkIn = checkInOf(state);
  const view = await jobView(workshop, state.id);
  const complaint = view?.personal.complaint?.value ?? null;
  const worse = checkIn.checks.some(({ difference }) => difference.change === 'worse');
  return {
    status: at?.value === 'refit' && worse ? 1 : 0,
    answer: { schema: 'kickpanel.check-in/1', job: state.id, complaint, ...checkIn, appended },
    text: (style) => checkInText(checkIn, complaint, style),
  };
}

export const checkIn: JobPart = {
  operands: [1, 2],
  usage:
    'job check-in JOB [CHECK --at arrive|refit --measured VALUE --unit UNIT | --result ok|fault | --photo FILE | --take ID | --words TEXT]',
  async run(call): Promise<CommandOutcome> {
    const [name, text] = call.operands;
    const found = await stateNamed(call, name);
    if (!found.ok) return issuesOutcome(...found.issues);
    if (text === undefined) return outcome(call, found.value, []);
    const atText = call.given('at');
    if (atText === undefined) {
      const mend = 'Give --at arrive for the car as it came, --at refit with the covers back.';
      return issuesOutcome({ code: 'option-missing', message: 'When was it tried?', where: '--at', mend });
    }
    const at = wordValue('at', atText, checkStages);
    const check = checkAsked(found.value, text);
    if (!at.ok || !check.ok) return issuesOutcome(...[at, check].flatMap((part) => (part.ok ? [] : part.issues)));
    const answer = await foundFrom(call, found.value);
    if (!answer.ok) return issuesOutcome(...answer.issues);
    const { found: fields, before } = answer.value;
    const wish = wishFrom({ command: 'recordCheck', at: at.value, check: check.value, found: fields }, 'job check-in');
    if (!wish.ok) return issuesOutcome(...wish.issues);
    const written = await carriedOut(call, found.value.id, ...before, wish.value);
    if (!written.ok) return issuesOutcome(...written.issues);
    return outcome(call, written.value.state, written.value.appended);
  },
};

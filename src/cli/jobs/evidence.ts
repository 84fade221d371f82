// `job evidence JOB HOLDPOINT ...`: what proves a hold point, given by somebody.
import { failure, type Result, success } from '../../base/result.ts';
import type { Command as Wish } from '../../job/commands/commands.ts';
import { evidenceUnits } from '../../job/hold-points/evidence-forms.ts';
import { holdPointsOf, isOpen } from '../../job/hold-points/hold-points.ts';
import type { JobState } from '../../job/projections/job-state.ts';
import type { CommandOutcome } from '../command.ts';
import { nearestWord } from '../nearest-word.ts';
import { numberValue, wordValue } from '../option-values.ts';
import { inWidth, pointLines } from './hold-point-text.ts';
import { issuesOutcome, type JobCall, type JobPart, whoOf } from './job-call.ts';
import { carriedOut, stateNamed } from './job-state.ts';
import { photoAsked } from './photo-files.ts';
import { wishFrom } from './wishes.ts';

type Fields = Record<string, unknown>;

/** The number of an option that may be absent. */
function optional(given: JobCall['given'], option: string, min: number, max: number): Result<number | undefined> {
  const text = given(option);
  return text === undefined ? success(undefined) : numberValue(option, text, { min, max });
}

function measuredFrom(given: JobCall['given'], text: string): Result<Fields> {
  const value = text === 'open' ? success('open' as const) : numberValue('measured', text, { min: 0, max: 1e9 });
  const unitText = given('unit');
  if (unitText === undefined) {
    const mend = `Give --unit, one of ${evidenceUnits.join(', ')}.`;
    return failure({ code: 'option-missing', message: 'A reading needs its unit.', where: '--unit', mend });
  }
  const unit = wordValue('unit', unitText, evidenceUnits);
  const tone = optional(given, 'tone', -80, 0);
  const meter = optional(given, 'meter', 50, 1e6);
  const probes = optional(given, 'probes', 0, 10);
  const temperature = optional(given, 'temperature', -40, 200);
  const all = [value, unit, tone, meter, probes, temperature];
  const issues = all.flatMap((part) => (part.ok ? [] : part.issues));
  if (!value.ok || !unit.ok || !tone.ok || !meter.ok || !probes.ok || !temperature.ok) return failure(...issues);
  const without = given('without')?.split(/[ ,]+/).filter(Boolean);
  const said = {
    value: value.value,
    unit: unit.value,
    toneDbfs: tone.value,
    meterHz: meter.value,
    probesOhm: probes.value,
    temperatureC: temperature.value,
    without,
  };
  return success({
    how: 'measured',
    ...Object.fromEntries(Object.entries(said).filter(([, one]) => one !== undefined)),
  });
}

/** What is given as evidence, and what has to be entered before it. */
async function evidenceFrom(call: JobCall, state: JobState): Promise<Result<{ fields: Fields; before: Wish[] }>> {
  const { given } = call;
  const [measured, seen, take, photo] = [given('measured'), given('seen'), given('take'), given('photo')];
  const count = [measured, seen, take, photo].filter((one) => one !== undefined).length;
  if (count !== 1) {
    const message = count === 0 ? 'What proves it?' : 'One piece of evidence at a time.';
    const mend = 'Give --measured VALUE --unit UNIT, or --take ID, or --photo FILE, or --seen --by NAME.';
    return failure({ code: count === 0 ? 'option-missing' : 'options-conflict', message, where: 'job evidence', mend });
  }
  const words = given('why') === undefined ? {} : { words: given('why') };
  if (measured !== undefined) {
    const fields = measuredFrom(given, measured);
    return fields.ok ? success({ fields: fields.value, before: [] }) : fields;
  }
  if (photo !== undefined) {
    const asked = await photoAsked(call, state, photo);
    if (!asked.ok) return asked;
    return success({ fields: { how: 'photo', photo: asked.value.photo, ...words }, before: asked.value.wishes });
  }
  if (take !== undefined) return success({ fields: { how: 'take', take, ...words }, before: [] });
  return success({ fields: { how: 'seen', name: given('by') ?? whoOf(given), ...words }, before: [] });
}

export const evidence: JobPart = {
  operands: [2, 300],
  usage: 'job evidence JOB HOLDPOINT... --measured VALUE --unit UNIT | --take ID | --photo FILE | --seen --by NAME',
  async run(call): Promise<CommandOutcome> {
    const [name, ...ids] = call.operands;
    const found = await stateNamed(call, name);
    if (!found.ok) return issuesOutcome(...found.issues);
    const said = await evidenceFrom(call, found.value);
    if (!said.ok) return issuesOutcome(...said.issues);
    const wish = wishFrom({ command: 'giveEvidence', holdPoints: ids, evidence: said.value.fields }, 'job evidence');
    if (!wish.ok) return issuesOutcome(...wish.issues);
    const written = await carriedOut(call, found.value.id, ...said.value.before, wish.value);
    if (!written.ok) {
      const known = holdPointsOf(found.value).map(({ id }) => id);
      return issuesOutcome(
        ...written.issues.map((issue) => {
          const near = issue.code === 'hold-point-unknown' ? nearestWord(issue.where ?? '', known) : null;
          return near === null ? issue : { ...issue, mend: `Did you mean "${near}"? ${issue.mend ?? ''}`.trim() };
        }),
      );
    }
    const { appended, state } = written.value;
    const points = holdPointsOf(state).filter(({ id }) => ids.includes(id));
    return {
      status: points.some(isOpen) ? 1 : 0,
      answer: { schema: 'kickpanel.evidence/1', job: state.id, holdPoints: points, appended },
      text: (style) => inWidth(points.flatMap(pointLines), style),
    };
  },
};

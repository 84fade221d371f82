// The options of `noise`: from their text to the takes and what was tried.
import { failure, type Issue, type Result, success } from '../base/result.ts';
import type { GivenTakes } from '../measurement/noise-hunt/given-takes.ts';
import type { Hunted, TakeRole } from '../measurement/noise-hunt/hunt-step.ts';
import type { HuntOptions } from '../measurement/noise-hunt/noise-hunt.ts';
import { huntTests, type TestName, type Tried, testNames } from '../measurement/noise-hunt/tried.ts';
import type { CommandContext, CommandOption } from './command.ts';
import { nearestWord } from './nearest-word.ts';
import { numberValue, wordValue } from './option-values.ts';
import { type OpenWav, openWavFile } from './wav-file.ts';

/** `sourceUnplugged` as the command line spells it: `source-unplugged`. */
export const dashed = (name: string): string => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

const roles: { role: TakeRole; meaning: string }[] = [
  { role: 'off', meaning: 'engine off, system on' },
  { role: 'idle', meaning: 'engine at idle, system on' },
  { role: 'revs', meaning: 'engine at 1500 to 2500 rpm, held steady, system on' },
  { role: 'systemOff', meaning: 'engine off, system off: what the car and its place sound like' },
  { role: 'engineAlone', meaning: 'engine at idle, system off: what the engine itself sounds like' },
  { role: 'turnOn', meaning: 'a take over turning on: its pops' },
  { role: 'turnOff', meaning: 'a take over turning off: its pops' },
];

const heardWords: Record<string, Hunted> = {
  whine: 'whine',
  hum: 'hum',
  tone: 'fixed tone',
  hiss: 'hiss',
  pops: 'pops',
};

export const noiseOptionList: CommandOption[] = [
  ...roles.map(({ role, meaning }) => ({ name: dashed(role), value: 'FILE.wav', meaning })),
  { name: 'idle-rpm', value: 'N', meaning: 'turns a minute of the idle', default: 'not known' },
  { name: 'revs-rpm', value: 'N', meaning: 'turns a minute of the raised revs', default: 'not known' },
  {
    name: 'rpm-from',
    value: 'counter|needle',
    meaning: 'how they were read; a needle may be 3 % out',
    default: 'counter',
  },
  { name: 'input', value: 'N', meaning: 'the input of the recordings, counted from 1', default: '1' },
  {
    name: 'spl',
    value: 'DB',
    meaning: 'the sound pressure level that full scale stands for',
    default: 'levels are relative',
  },
  {
    name: 'heard',
    value: Object.keys(heardWords).join('|'),
    meaning: 'what to hunt',
    default: 'what the takes show',
  },
  {
    name: 'tried',
    value: 'TEST=ANSWER,...',
    meaning: `answers so far, yes or no, or mV; yes: still there, or follows, or falls. Tests: ${testNames.map(dashed).join(', ')}`,
  },
];

function badAnswer(where: string, message: string, mend: string): Issue {
  return { code: 'bad-answer', message, where: `--tried ${where}`, mend };
}

function triedFrom(text: string): Result<Tried> {
  const issues: Issue[] = [];
  const tried: Tried = {};
  for (const part of text.split(',')) {
    const [name = '', answer = '', ...more] = part.trim().split('=');
    const test = testNames.find((known) => dashed(known) === name);
    if (test === undefined) {
      const near = nearestWord(name, testNames.map(dashed));
      const mend = near === null ? `The tests are: ${testNames.map(dashed).join(', ')}.` : `Did you mean ${near}?`;
      issues.push(badAnswer(part, `There is no test "${name}".`, mend));
    } else if (more.length > 0 || answer === '') {
      issues.push(badAnswer(part, `"${part}" is not a test and its answer.`, `Write ${name}=${sampleAnswer(test)}.`));
    } else answered(test, answer, tried, issues);
  }
  return issues.length > 0 ? failure(...issues) : success(tried);
}

/** An answer as it may be typed. */
export const sampleAnswer = (test: TestName): string => (huntTests[test].unit === undefined ? 'yes' : '12');

function answered(test: TestName, answer: string, tried: Tried, issues: Issue[]): void {
  const name = dashed(test);
  if (huntTests[test].unit === undefined) {
    if (answer === 'yes' || answer === 'no') Object.assign(tried, { [test]: answer === 'yes' });
    else
      issues.push(
        badAnswer(name, `${name} is answered by yes or no, got "${answer}".`, `Write ${name}=yes or ${name}=no.`),
      );
    return;
  }
  const value = numberValue('tried', answer, { min: 0, max: 100_000, unit: 'mV' });
  if (value.ok) Object.assign(tried, { [test]: value.value });
  else
    issues.push(badAnswer(name, `${name} is answered in mV from 0 to 100000, got "${answer}".`, `Write ${name}=12.`));
}

export interface NoiseCall {
  options: HuntOptions;
  rpm: Partial<Record<TakeRole, number>>;
  channel: number;
}

/** What the call asks for, the files aside; every value that cannot be is an issue. */
export function noiseCallFrom(given: CommandContext['given']): Result<NoiseCall> {
  const issues: Issue[] = [];
  const call: NoiseCall = { options: {}, rpm: {}, channel: 0 };
  const take = <Value>(name: string, read: (text: string) => Result<Value>, use: (value: Value) => void): void => {
    const text = given(name);
    if (text === undefined) return;
    const value = read(text);
    if (value.ok) use(value.value);
    else issues.push(...value.issues);
  };
  for (const role of ['idle', 'revs'] as const) {
    const name = `${role}-rpm`;
    take(
      name,
      (text) => numberValue(name, text, { min: 100, max: 20_000, unit: 'rpm' }),
      (rpm) => {
        call.rpm[role] = rpm;
      },
    );
    if (given(name) !== undefined && given(role) === undefined) {
      const mend = `Give --${role} FILE.wav, or leave --${name} out.`;
      issues.push({
        code: 'option-missing',
        message: `--${name} is of a take that is not there.`,
        where: `--${role}`,
        mend,
      });
    }
  }
  take(
    'input',
    (text) => numberValue('input', text, { min: 1, max: 64, whole: true }),
    (input) => {
      call.channel = input - 1;
    },
  );
  take(
    'spl',
    (text) => numberValue('spl', text, { min: 40, max: 200, unit: 'dB' }),
    (splDb) => {
      call.options.fullScaleSplDb = splDb;
    },
  );
  take(
    'rpm-from',
    (text) => wordValue('rpm-from', text, ['counter', 'needle'] as const),
    (rpmFrom) => {
      call.options.rpmFrom = rpmFrom;
    },
  );
  take(
    'heard',
    (text) => wordValue('heard', text, Object.keys(heardWords)),
    (heard) => {
      call.options.heard = heardWords[heard];
    },
  );
  take('tried', triedFrom, (tried) => {
    call.options.tried = tried;
  });
  return issues.length > 0 ? failure(...issues) : success(call);
}

/** The takes that were named, opened; whoever gets them closes them. */
export function openTakes(
  given: CommandContext['given'],
  { rpm, channel }: NoiseCall,
): Result<{ takes: GivenTakes; close: () => void }> {
  const takes: GivenTakes = {};
  const open: OpenWav[] = [];
  const issues: Issue[] = [];
  for (const { role } of roles) {
    const path = given(dashed(role));
    if (path === undefined) continue;
    const wav = openWavFile(path);
    if (!wav.ok) {
      issues.push(...wav.issues);
      continue;
    }
    open.push(wav.value);
    takes[role] = { recording: wav.value.recording, channel, rpm: rpm[role] };
  }
  const close = () => {
    for (const wav of open) wav.close();
  };
  if (issues.length === 0) return success({ takes, close });
  close();
  return failure(...issues);
}

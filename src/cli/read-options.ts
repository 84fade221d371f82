// The options of `read`: from their text to how a take is to be read.
import type { Issue, Result } from '../base/result.ts';
import { failure, success } from '../base/result.ts';
import type { ReadOptions } from '../measurement/reading.ts';
import type { CommandContext, CommandOption } from './command.ts';
import { numberValue, pairValue } from './option-values.ts';

export const readOptionList: CommandOption[] = [
  { name: 'track', value: 'F.track.json', meaning: 'the description of the track that was playing (needed)' },
  {
    name: 'expect-arrival',
    value: 'FROM:TO',
    meaning: 'when the direct sound may arrive, ms after the time reference, from a tape measure',
    default: '12 ms either way',
  },
  {
    name: 'mic-calibration',
    value: 'FILE',
    meaning: "the microphone's deviation: lines of frequency and decibels",
    default: 'none: taken as flat',
  },
  {
    name: 'input',
    value: 'N',
    meaning: 'the input to read, counted from 1',
    default: 'the one that hears the track best',
  },
  {
    name: 'reference',
    value: 'FILE.wav',
    meaning: 'the source itself, recorded alongside by a loop-back: times count from it, its response is taken out',
  },
  {
    name: 'reference-input',
    value: 'N',
    meaning: 'the input with the loop-back, of that file or else of the recording itself, counted from 1',
    default: '1 of the file',
  },
  { name: 'smooth', value: '1/N|none', meaning: 'smoothing of the levels in octaves', default: '1/12' },
  { name: 'band', value: 'LOW-HIGH', meaning: 'the band to read in, Hz', default: 'the one that is found' },
  { name: 'spl', value: 'DB', meaning: 'the sound pressure level that full scale stands for, dB' },
  { name: 'impulse', value: 'OUT.wav', meaning: 'write the impulse response, 32-bit float' },
  { name: 'csv', value: 'OUT.csv', meaning: 'write response and distortion as a table' },
];

/** Octaves of `1/12` or 0 for `none`. */
function smoothingValue(text: string): Result<number> {
  if (text === 'none') return success(0);
  const fraction = /^1\/(\d{1,3})$/.exec(text)?.[1];
  const parts = fraction === undefined ? 0 : Number(fraction);
  if (parts >= 1 && parts <= 96) return success(1 / parts);
  return failure({
    code: 'bad-option-value',
    message: `--smooth must be 1/1 to 1/96 or none, got "${text}".`,
    where: '--smooth',
    mend: 'Give --smooth 1/12, another fraction of an octave, or none.',
  });
}

/** What the call asks for, the files aside; every value that cannot be is an issue. */
export function readOptionsFrom(given: CommandContext['given']): Result<ReadOptions> {
  const options: ReadOptions = {};
  const issues: Issue[] = [];
  const take = <Value>(name: string, read: (text: string) => Result<Value>, use: (value: Value) => void): void => {
    const text = given(name);
    if (text === undefined) return;
    const value = read(text);
    if (value.ok) use(value.value);
    else issues.push(...value.issues);
  };
  take(
    'expect-arrival',
    (text) => pairValue('expect-arrival', text, ':', { min: -1000, max: 1000, unit: 'ms' }),
    ({ from, to }) => {
      options.expectArrivalS = { from: from / 1e3, to: to / 1e3 };
    },
  );
  take(
    'input',
    (text) => numberValue('input', text, { min: 1, max: 64, whole: true }),
    (input) => {
      options.input = input - 1;
    },
  );
  take('smooth', smoothingValue, (octaves) => {
    options.smoothOctaves = octaves;
  });
  take(
    'band',
    (text) => pairValue('band', text, '-', { min: 1, max: 96_000, unit: 'Hz' }),
    ({ from, to }) => {
      options.bandHz = { low: from, high: to };
    },
  );
  take(
    'spl',
    (text) => numberValue('spl', text, { min: 40, max: 200, unit: 'dB' }),
    (splDb) => {
      options.fullScaleSplDb = splDb;
    },
  );
  return issues.length > 0 ? failure(...issues) : success(options);
}

// Whatever happens to a recording on its way, the reader refuses it, says what is wrong, or is right.
import { describe, expect, test } from 'vitest';
import { readTake } from '../../src/measurement/read-take.ts';
import { byteSourceFromArray } from '../../src/signals/recording.ts';
import { readWav } from '../../src/signals/wav/read-wav.ts';
import { writeWav } from '../../src/signals/wav/write-wav.ts';
import { type GoodTakeWithTruth, goodTakes } from './good-takes.ts';
import { corruptionNames, spoilt } from './take-corruptions.ts';
import { confidentlyWrong, notFinite } from './take-judgement.ts';

const SEEDS = 200;
/** Later seeds that once gave a wrong answer without a doubt. */
const ONCE_WRONG = [226, 337, 379, 411, 611, 669];

/** What is wrong with the answer to one spoilt file; nothing where the file itself is refused. */
function complaints(take: GoodTakeWithTruth, seed: number): string[] {
  const file = spoilt(take, seed);
  const named = (what: string): string => `seed ${seed}, ${file.name}: ${what}`;
  try {
    const wav = readWav(byteSourceFromArray(file.bytes));
    if (!wav.ok) return wav.issues.length > 0 ? [] : [named('refused without a reason')];
    const { reading, impulse } = readTake(wav.value.recording, take.track);
    const broken = [...notFinite(reading), ...(impulse?.samples.every(Number.isFinite) === false ? ['impulse'] : [])];
    const silent = reading.quality.usable || reading.quality.problems.length > 0 ? [] : ['unusable without a problem'];
    return [...broken, ...silent, ...confidentlyWrong(reading, take.truth, file)].map(named);
  } catch (error) {
    return [named(error instanceof Error ? (error.stack ?? error.message) : String(error))];
  }
}

describe.each(goodTakes)('$name', (take) => {
  test('is right as it is', () => {
    const bytes = writeWav({ channels: [take.samples], rateHz: take.rateHz, format: take.format });
    const wav = readWav(byteSourceFromArray(bytes));
    if (!wav.ok) throw new Error('the good take must be read');
    const { reading } = readTake(wav.value.recording, take.track);
    expect(reading.quality.problems).toEqual([]);
    expect(confidentlyWrong(reading, take.truth, { gainDb: 0, sign: 1, levelFree: false })).toEqual([]);
    expect(reading.polarity?.sign).toBe(take.truth.sign);
    expect(reading.response?.valid.filter((valid) => valid).length).toBeGreaterThan(150);
    expect(reading.arrivalS !== undefined).toBe(take.truth.arrivalS !== null);
  });

  test.each(corruptionNames.map((name, first) => [name, first] as const))('%s', (_, first) => {
    const found: string[] = [];
    for (let seed = first; seed < SEEDS; seed += corruptionNames.length) {
      found.push(...complaints(take, seed));
    }
    expect(found).toEqual([]);
  });

  test('what once was read wrong', () => {
    expect(ONCE_WRONG.flatMap((seed) => complaints(take, seed))).toEqual([]);
  });
});

test('a wrong number would be seen: truth itself turned over, moved and tilted', () => {
  const [take] = goodTakes;
  const wav = readWav(
    byteSourceFromArray(writeWav({ channels: [take.samples], rateHz: take.rateHz, format: take.format })),
  );
  if (!wav.ok) throw new Error('the good take must be read');
  const { reading } = readTake(wav.value.recording, take.track);
  const { response, arrivalS, sign } = take.truth;
  const same = { gainDb: 0, sign: 1, levelFree: false } as const;
  const tilted = { ...response, levelDb: response.levelDb.map((db, i) => db + 0.03 * i) };
  expect(confidentlyWrong(reading, { ...take.truth, response: tilted }, same)[0]).toMatch(/^response: \d+ % of/);
  expect(confidentlyWrong(reading, { ...take.truth, arrivalS: (arrivalS ?? 0) + 0.002 }, same)[0]).toMatch(/^arrival/);
  expect(confidentlyWrong(reading, { ...take.truth, sign: sign === 1 ? -1 : 1 }, same)[0]).toMatch(/^polarity/);
  expect(notFinite({ a: [1, { b: Number.NaN }] })).toEqual(['.a.1.b is NaN']);
});

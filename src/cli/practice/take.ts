// `practice take`: one take at the seat of a simulated car, as a recorder would have it, with the truth beside it.
import type { Issue, Result } from '../../base/result.ts';
import { failure, success } from '../../base/result.ts';
import { nominalBand, type PlaceId, placeOf } from '../../practice/car.ts';
import { carFromSeed } from '../../practice/car-from-seed.ts';
import { recordingFaults } from '../../practice/faults.ts';
import { renderTake } from '../../practice/render-take.ts';
import type { TakeRequest } from '../../practice/take-request.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import { writeWav } from '../../signals/wav/write-wav.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';
import { numberValue, wordValue } from '../option-values.ts';
import { wrapped } from '../wrap.ts';
import { writeWholeFile } from '../write-file.ts';
import { descriptionPathFor } from '../write-track.ts';

interface TakeCall {
  world: TakeRequest;
  fault: string | null;
  out: string;
}

const wavFormat = { 16: '16', 24: '24', 32: '32f' } as const;

/** The driver on test on one side, the opposite tweeter as the time reference. */
function worldOf(seed: number, place: PlaceId, kind: 'ordinary' | 'hard', snrDb: number | null): Result<TakeRequest> {
  const car = carFromSeed(seed, kind);
  const { lowHz, highHz } = nominalBand(placeOf(car, place));
  const side = place.endsWith('right') ? 'right' : 'left';
  const anchor: PlaceId = side === 'left' ? 'tweeter-right' : 'tweeter-left';
  const track = designTrack({
    kind: 'sweep',
    rateHz: 48_000,
    side,
    fromHz: Math.max(20, Math.round(lowHz / 2)),
    toHz: Math.min(20_000, Math.round(highHz * 3)),
  });
  if (!track.ok) return track;
  return success({
    track: track.value,
    car,
    on: [{ place, side }, anchor],
    recorder: { snrDb },
    seed,
  });
}

function callOf(given: CommandContext['given']): Result<TakeCall> {
  const mend = 'Call it as: kickpanel practice take --seed 7 --out take.wav';
  const issues: Issue[] = [];
  const out = given('out') ?? '';
  if (!/\.wav$/i.test(out)) {
    const message = out === '' ? 'practice take needs a file to write.' : '--out must end in .wav.';
    issues.push({ code: 'option-missing', message, where: '--out', mend });
  }
  const seed = numberValue('seed', given('seed') ?? '1', { min: 0, max: 4294967295, whole: true });
  const snr =
    given('snr') === undefined
      ? success(null)
      : numberValue('snr', given('snr') ?? '', { min: -20, max: 100, unit: 'dB' });
  const faults = Object.keys(recordingFaults);
  const fault = given('fault') === undefined ? success(null) : wordValue('fault', given('fault') ?? '', faults);
  for (const part of [seed, snr, fault]) if (!part.ok) issues.push(...part.issues);
  if (issues.length > 0 || !seed.ok || !snr.ok || !fault.ok) return failure(...issues);
  const places = carFromSeed(seed.value).places.map(({ id }) => id);
  const place = wordValue('place', given('place') ?? places[seed.value % places.length], places);
  if (!place.ok) return place;
  const world = worldOf(seed.value, place.value, given('hard') === undefined ? 'ordinary' : 'hard', snr.value);
  return world.ok ? success({ world: world.value, fault: fault.value, out }) : world;
}

/** Arrays of numbers as JSON has them. */
const plain = (_: string, value: unknown): unknown => (value instanceof Float64Array ? [...value] : value);

/** Writes recording, description and truth. */
export function practiceTake({ given }: CommandContext): CommandOutcome {
  const call = callOf(given);
  if (!call.ok) return { status: 2, issues: call.issues };
  const { out, fault } = call.value;
  const planted = fault === null ? null : recordingFaults[fault](call.value.world);
  const world = planted?.world ?? call.value.world;
  const take = renderTake(world);
  const description = descriptionPathFor(out);
  const truthFile = out.replace(/\.wav$/i, '.truth.json');
  const truth = { seed: world.seed, fault: planted?.truth ?? null, ...take.truth };
  const contents: [string, string | Uint8Array][] = [
    [out, writeWav({ channels: take.samples, rateHz: take.rateHz, format: wavFormat[take.bits] })],
    [description, `${JSON.stringify(world.track, null, 1)}\n`],
    [truthFile, `${JSON.stringify(truth, plain, 1)}\n`],
  ];
  for (const [path, content] of contents) {
    const done = writeWholeFile(path, content);
    if (!done.ok) return { status: 2, issues: done.issues };
  }
  const next = `kickpanel read ${out} --track ${description}`;
  return {
    status: 0,
    answer: {
      schema: 'kickpanel.practice/1',
      kind: 'take',
      seed: world.seed,
      take: out,
      track: description,
      truth: truthFile,
      next,
    },
    text: ({ width }) =>
      `${[...wrapped(`A take of car ${world.seed}: ${out}. The truth is in ${truthFile}.`, width), '', next].join('\n')}\n`,
  };
}

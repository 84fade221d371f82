// `practice near`: a simulated car with planted wiring faults, one take at each driver, and the truth beside them.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Issue, Result } from '../../base/result.ts';
import { failure, success } from '../../base/result.ts';
import { nearWalk, renderNearTakes } from '../../practice/near-field/render-near-takes.ts';
import type { TrackDescription } from '../../signals/track.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import { writeWav } from '../../signals/wav/write-wav.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';
import { numberValue } from '../option-values.ts';
import { pathIssue } from '../text-file.ts';
import { wrapped } from '../wrap.ts';
import { writeWholeFile } from '../write-file.ts';
import { writeTrack } from '../write-track.ts';

const wavFormat = { 16: '16', 24: '24', 32: '32f' } as const;

interface NearCall {
  seed: number;
  faults: number;
  out: string;
  snrDb: number | null;
  stimulusS: number | undefined;
}

function callOf(given: CommandContext['given']): Result<NearCall> {
  const issues: Issue[] = [];
  const value = (name: string, usual: string, rule: { min: number; max: number; whole?: boolean; unit?: string }) => {
    const read = numberValue(name, given(name) ?? usual, rule);
    if (!read.ok) issues.push(...read.issues);
    return read.ok ? read.value : 0;
  };
  const call: NearCall = {
    seed: value('seed', '1', { min: 0, max: 4294967295, whole: true }),
    faults: value('faults', '2', { min: 0, max: 3, whole: true }),
    snrDb: given('snr') === undefined ? null : value('snr', '20', { min: -20, max: 100, unit: 'dB' }),
    stimulusS: given('seconds') === undefined ? undefined : value('seconds', '6', { min: 1, max: 60, unit: 's' }),
    out: given('out') ?? '',
  };
  if (call.out === '') {
    const mend = 'Call it as: kickpanel practice near --seed 7 --faults 2 --out FOLDER';
    issues.push({ code: 'option-missing', message: 'practice near needs a folder to write to.', where: '--out', mend });
  }
  return issues.length > 0 ? failure(...issues) : success(call);
}

function madeFolder(path: string): Result<void> {
  try {
    mkdirSync(path, { recursive: true });
    return success(undefined);
  } catch (error) {
    return failure(pathIssue(path, error, 'written'));
  }
}

function nearTrack({ stimulusS }: NearCall): Result<TrackDescription> {
  return designTrack({ kind: 'near', rateHz: 48_000, stimulusS });
}

const fileOf = (place: string): string => `${place.replaceAll(/[^a-z0-9]+/gi, '-')}.wav`;

/** Writes plan, track, takes and truth; the first failure ends it. */
export function practiceNear({ given, onProgress }: CommandContext): CommandOutcome {
  const call = callOf(given);
  if (!call.ok) return { status: 2, issues: call.issues };
  const { seed, faults, out, snrDb } = call.value;
  const folder = madeFolder(out);
  if (!folder.ok) return { status: 2, issues: folder.issues };
  const designed = nearTrack(call.value);
  if (!designed.ok) return { status: 2, issues: designed.issues };
  const track = designed.value;
  const paths = {
    plan: join(out, 'plan.json'),
    track: join(out, 'near.track.json'),
    truth: join(out, 'truth.json'),
  };
  const files = { wavPath: join(out, 'near.wav'), descriptionPath: paths.track };
  const written = writeTrack(track, files, { format: '24', seed: 1, onProgress: () => {} });
  if (!written.ok) return { status: 2, issues: written.issues };
  const walk = nearWalk(seed, faults);
  const takes: { place: string; file: string }[] = [];
  onProgress(0.2, 'playing the car');
  for (const { place, samples, rateHz, bits } of renderNearTakes({ walk, track, snrDb })) {
    const file = join(out, fileOf(place));
    const done = writeWholeFile(file, writeWav({ channels: [samples], rateHz, format: wavFormat[bits] }));
    if (!done.ok) return { status: 2, issues: done.issues };
    takes.push({ place, file });
  }
  for (const [path, content] of [
    [paths.plan, walk.plan],
    [paths.truth, walk.truth],
  ] as const) {
    const done = writeWholeFile(path, `${JSON.stringify(content, null, 1)}\n`);
    if (!done.ok) return { status: 2, issues: done.issues };
  }
  const words = takes.map(({ place, file }) => `"${place}=${file}"`).join(' ');
  const next = `kickpanel nearwalk --plan ${paths.plan} --track ${paths.track} ${words}`;
  return {
    status: 0,
    answer: { schema: 'kickpanel.practice/1', kind: 'near', seed, faults, ...paths, takes, next },
    text: ({ width }) =>
      [
        ...wrapped(
          `A car with ${faults === 1 ? 'one fault' : `${faults} faults`}: ${takes.length} takes in ${out}.`,
          width,
        ),
        ...wrapped(`Find what is wrong, then look: ${paths.truth}`, width),
        '',
        next,
        '',
      ].join('\n'),
  };
}

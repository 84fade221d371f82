// What a take says, wherever it is read: by the shop's server, or here while the shop does not have it.
import { useEffect, useState } from 'react';
import type { ImpulseResponse, Reading, ReadOptions } from '../../measurement/reading.ts';
import type { TrackDescription } from '../../signals/track.ts';
import type { JobView, Microphone, ShopApi } from '../api-client.ts';
import { type KeptTake, keptFile } from '../keep/kept-take.ts';
import { useShop } from '../shop/shop-context.ts';
import { ShopError, shopErrorFrom } from '../shop/shop-error.ts';
import { readHere } from './read-here.ts';

export type Take = JobView['job']['takes'][number];

export type ReadingProgress =
  | { state: 'reading'; share: number; doing: string }
  | { state: 'done'; reading: Reading; impulse: ImpulseResponse | null }
  | { state: 'failed'; error: ShopError };

/** How a take of the journal is to be read: by the level and the correction of its microphone. */
export function readOptionsFor(
  take: Pick<Take, 'level' | 'microphone'>,
  microphones: readonly Microphone[],
): ReadOptions {
  const correction = microphones.find(({ microphone }) => microphone === take.microphone)?.correction;
  return {
    ...(take.level.fullScaleSplDb === undefined ? {} : { fullScaleSplDb: take.level.fullScaleSplDb }),
    ...(correction === undefined ? {} : { microphone: correction }),
  };
}

const askEveryMs = 350;

/** Reads a take at the shop; `tell` gets how far it is. */
export async function readAtShop(
  api: ShopApi,
  take: Pick<Take, 'recording' | 'track'>,
  options: ReadOptions,
  tell: (progress: ReadingProgress) => void,
  given: { up: boolean },
  wanted: { impulse: boolean } = { impulse: true },
): Promise<ReadingProgress> {
  let state = await api.startReading(take.recording, take.track, options);
  while (state.state === 'waiting' || state.state === 'running') {
    tell({ state: 'reading', share: state.share, doing: state.doing });
    await new Promise((resolve) => setTimeout(resolve, askEveryMs));
    if (given.up) return { state: 'reading', share: state.share, doing: state.doing };
    state = await api.readingState(state.id);
  }
  if (state.state === 'done' && state.reading) {
    const impulse = wanted.impulse && state.impulse ? await api.impulse(state.id).catch(() => null) : null;
    return { state: 'done', reading: state.reading, impulse };
  }
  const { error } = state;
  const facts = error ?? {
    code: 'reading-stopped',
    message: 'The reading was stopped.',
    mend: 'Open the take again to read it.',
  };
  return { state: 'failed', error: new ShopError({ ...facts, status: -1 }) };
}

const starting: ReadingProgress = { state: 'reading', share: 0, doing: '' };

/** The reading of a take in the journal. */
export function useReading(take: Take | null, microphones: readonly Microphone[] | undefined): ReadingProgress {
  const { api } = useShop();
  const [progress, setProgress] = useState<ReadingProgress>(starting);
  const options = take && microphones ? readOptionsFor(take, microphones) : null;
  const key = take && options ? JSON.stringify([take.recording, take.track, options]) : null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key says all that the reading depends on
  useEffect(() => {
    if (!take || !options) return;
    const given = { up: false };
    setProgress(starting);
    const tell = (now: ReadingProgress) => (given.up ? undefined : setProgress(now));
    readAtShop(api, take, options, tell, given).then(tell, (failed) =>
      tell({ state: 'failed', error: shopErrorFrom(failed) }),
    );
    return () => {
      given.up = true;
    };
  }, [api, key]);
  return progress;
}

/** The reading of a take that only this browser has. */
export function useReadingHere(kept: KeptTake | null): ReadingProgress {
  const [progress, setProgress] = useState<ReadingProgress>(starting);
  const id = kept?.id ?? null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a kept take does not change its sound
  useEffect(() => {
    if (!kept || kept.state === 'recording') return;
    const reader = new AbortController();
    setProgress(starting);
    const tell = (now: ReadingProgress) => (reader.signal.aborted ? undefined : setProgress(now));
    const { fullScaleSplDb } = kept.take.level ?? {};
    const options: ReadOptions = fullScaleSplDb === undefined ? {} : { fullScaleSplDb };
    keptFile(kept)
      .then((wav) =>
        readHere({ wav, track: kept.track as TrackDescription, options }, reader.signal, (share, doing) =>
          tell({ state: 'reading', share, doing }),
        ),
      )
      .then(
        ({ reading, impulse }) => tell({ state: 'done', reading, impulse }),
        (failed) => tell({ state: 'failed', error: shopErrorFrom(failed) }),
      );
    return () => reader.abort();
  }, [id]);
  return progress;
}

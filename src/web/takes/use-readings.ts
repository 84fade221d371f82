// The readings of several takes at once, as far as they are there; the others are read.
import { useEffect, useState } from 'react';
import type { Reading } from '../../measurement/reading.ts';
import type { Microphone } from '../api-client.ts';
import { type ReadingProgress, readAtShop, readOptionsFor, type Take } from '../reading/reading-state.ts';
import { useShop } from '../shop/shop-context.ts';
import { shopErrorFrom } from '../shop/shop-error.ts';

/** By take. */
export type Readings = Record<string, ReadingProgress>;

export function useReadings(takes: readonly Take[], microphones: readonly Microphone[] | undefined): Readings {
  const { api } = useShop();
  const [readings, setReadings] = useState<Readings>({});
  const key = microphones === undefined ? '' : takes.map(({ take }) => take).join(' ');
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key says which takes there are
  useEffect(() => {
    if (microphones === undefined) return;
    const given = { up: false };
    const tell = (take: string) => (now: ReadingProgress) => {
      if (!given.up) setReadings((before) => ({ ...before, [take]: now }));
    };
    const readAll = async () => {
      for (const take of takes) {
        if (given.up) return;
        const say = tell(take.take);
        await readAtShop(api, take, readOptionsFor(take, microphones), say, given, { impulse: false }).then(
          say,
          (failed) => say({ state: 'failed', error: shopErrorFrom(failed) }),
        );
      }
    };
    void readAll();
    return () => {
      given.up = true;
    };
  }, [api, key]);
  return readings;
}

export function readingOf(readings: Readings, take: string): Reading | null {
  const progress = readings[take];
  return progress?.state === 'done' ? progress.reading : null;
}

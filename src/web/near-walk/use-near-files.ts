// Recordings of the near walk that were made elsewhere: one for a place, or a long one with a stop at each.
import { useState } from 'react';
import type { NearPlanOfJob } from '../../job/near-walk/near-plan-of-job.ts';
import type { TrackDescription } from '../../signals/track.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import type { WalkedChannel } from '../../wiring/plan-of-job.ts';
import type { JobView } from '../api-client.ts';
import { lookAtKept, sendKept } from '../keep/outbox.ts';
import { newId } from '../shop/ids.ts';
import { useShop } from '../shop/shop-context.ts';
import type { Wishing } from '../shop/use-job.ts';
import { keepFile, takeToRecord } from '../take/new-take.ts';
import { stopsSentence } from './near-words.ts';
import { nearOver } from './use-near-walk.ts';

const playRateHz = 48_000;
/** Nobody has proven yet what any lead ends on. */
const firstLevelDbfs = -30;

/** The track of a near walk as this screen gives it away. */
export function nearTrack(): TrackDescription {
  const made = designTrack({ kind: 'near', rateHz: playRateHz, levelDbfs: firstLevelDbfs });
  if (!made.ok) throw new Error(made.issues[0].message);
  return made.value;
}

export interface NearFiles {
  /** What is being done with a long recording. */
  doing: string | null;
  fault: string | null;
  takeFor: (channel: WalkedChannel, files: readonly File[]) => void;
  takeLong: (files: readonly File[]) => void;
  /** A track carried away is written down, so that its recordings can be read by it later. */
  writeDown: (track: TrackDescription) => void;
}

export function useNearFiles(
  view: JobView,
  { walk }: NearPlanOfJob,
  open: readonly string[],
  wish: Wishing['wish'],
): NearFiles {
  const { api } = useShop();
  const { job } = view;
  const [doing, setDoing] = useState<string | null>(null);
  const [fault, setFault] = useState<string | null>(null);

  /** A description dropped along, else the last near track of the job, else the one that this screen gives away. */
  async function trackOf(files: readonly File[]): Promise<TrackDescription> {
    const described = files.find(({ name }) => name.endsWith('.json'));
    if (described !== undefined) {
      const track = JSON.parse(await described.text()) as TrackDescription;
      if (track.schema !== 'kickpanel.track/1' || track.kind !== 'near')
        throw new Error(`${described.name} does not describe a track of the near walk.`);
      return track;
    }
    const known = job.tracks.filter(({ kind }) => kind === 'near').at(-1);
    return known === undefined ? nearTrack() : api.track(known.track);
  }

  async function tried(files: readonly File[], use: (sound: File, track: TrackDescription) => Promise<void>) {
    setFault(null);
    try {
      const sound = files.find(({ name }) => !name.endsWith('.json'));
      if (sound === undefined) throw new Error('There was no recording among the files.');
      await use(sound, await trackOf(files));
    } catch (failed) {
      const unread = failed instanceof SyntaxError ? 'The description cannot be read.' : (failed as Error).message;
      setFault(unread);
    } finally {
      setDoing(null);
    }
  }

  const takeOf = (track: TrackDescription, place: string) =>
    takeToRecord({ view, track, place, microphone: null }).take;

  /** Nothing where the job knows the track already. */
  function trackWishes({ kind, durationS, code }: TrackDescription, sha256: string) {
    if (job.tracks.some(({ track: known }) => known === sha256)) return [];
    return [
      {
        command: 'keepTrack' as const,
        track: sha256,
        kind,
        durationS,
        name: 'Near walk',
        ...(code === undefined ? {} : { code }),
      },
    ];
  }

  async function cut(sound: File, track: TrackDescription): Promise<void> {
    setDoing('Sending the recording');
    const kept = await api.keepTrack(track);
    const long = await api.keepRecording(sound);
    const begun = await api.startPlays(long.sha256, kept.sha256);
    const { plays = [] } = await nearOver(api, begun, (now) => setDoing(now.doing || 'Looking for each stop'), {
      up: false,
    });
    const { channels } = walk;
    const waiting = channels.filter(({ place }) => open.includes(place));
    const places = plays.length === channels.length ? channels : plays.length === waiting.length ? waiting : null;
    if (places === null || plays.length === 0) {
      throw new Error(
        `${stopsSentence(plays, channels.length, waiting.length)} Record as many stops as there are places, in their order, the track from its start at each; or drop a recording on each place.`,
      );
    }
    const { place: _, ...whole } = takeOf(track, 'All stops in one');
    await wish(
      ...trackWishes(track, kept.sha256),
      { command: 'recordTake', take: newId(), ...whole, recording: long.sha256, bytes: long.bytes, track: kept.sha256 },
      ...plays.map(({ recording, bytes }, n) => ({
        command: 'recordTake' as const,
        take: newId(),
        ...takeOf(track, places[n].placeName),
        recording,
        bytes,
        track: kept.sha256,
      })),
    );
  }

  return {
    doing,
    fault,
    takeFor: (channel, files) =>
      void tried(files, async (sound, track) => {
        await keepFile(takeToRecord({ view, track, place: channel.placeName, microphone: null }), sound);
        await lookAtKept();
        await sendKept(api);
      }),
    takeLong: (files) => void tried(files, cut),
    writeDown: (track) =>
      void api
        .keepTrack(track)
        .then(({ sha256 }) => {
          const wishes = trackWishes(track, sha256);
          return wishes.length === 0 ? true : wish(...wishes);
        })
        .catch((failed: Error) => setFault(failed.message)),
  };
}

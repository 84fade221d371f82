// A sweep that the track plays more than once must sound the same each time.
import type { SweepSegment } from '../../signals/track.ts';
import type { SweepReading } from '../sweep-reading.ts';
import type { Finding } from './take-context.ts';

/** Change of all levels alike that no driver makes between two plays at one level, dB. */
const GAIN_DB = 0.7;
/** Change of one third octave against the others that no microphone stand makes, dB. */
const UNLIKE_DB = 3;
const LEAST_BANDS = 3;

export interface PlayedSweep {
  segment: SweepSegment;
  reading: Pick<SweepReading, 'bands'>;
}

function sameSweep(one: SweepSegment, other: SweepSegment): boolean {
  return (['side', 'fromHz', 'toHz', 'durationS', 'levelDbfs'] as const).every((field) => one[field] === other[field]);
}

interface BandChange {
  fHz: number;
  db: number;
}

/** Third octaves that both readings know, and what they changed by. */
function changesOf(one: PlayedSweep, other: PlayedSweep): BandChange[] {
  const { fHz, levelDb } = one.reading.bands;
  return fHz.flatMap((f, i) => {
    const [before, after] = [levelDb[i], other.reading.bands.levelDb[i]];
    return before === null || after === null || after === undefined ? [] : [{ fHz: f, db: after - before }];
  });
}

function medianDb(changes: BandChange[]): number {
  const sorted = changes.map(({ db }) => db).sort((a, b) => a - b);
  return sorted[sorted.length >> 1];
}

/**
 * What the plays of one sweep say of the recording: its gain moved, or something sounded or was lost during one of them.
 *
 * @param gainKnown  true where markers tell about the gain, which they do better
 * @returns null where no sweep repeats at one level, or all plays agree
 */
export function unlikeRepeats(sweeps: PlayedSweep[], gainKnown: boolean): Finding | null {
  let gain: Finding | null = null;
  for (let i = 0; i < sweeps.length; i++) {
    const again = sweeps.find((other, j) => j > i && sameSweep(sweeps[i].segment, other.segment));
    const changes = again ? changesOf(sweeps[i], again) : [];
    if (changes.length < LEAST_BANDS) continue;
    const changeDb = medianDb(changes);
    const unlike = changes.filter(({ db }) => Math.abs(db - changeDb) > UNLIKE_DB);
    if (unlike.length > 0) return unlikePlays(unlike, changeDb);
    if (!gainKnown && Math.abs(changeDb) > GAIN_DB) gain ??= movedGain(changeDb);
  }
  return gain;
}

function unlikePlays(unlike: BandChange[], changeDb: number): Finding {
  const worst = Math.max(...unlike.map(({ db }) => Math.abs(db - changeDb)));
  const [fromHz, toHz] = [unlike[0].fHz, unlike[unlike.length - 1].fHz];
  const where =
    fromHz === toHz ? `at ${fromHz.toFixed(0)} Hz` : `between ${fromHz.toFixed(0)} and ${toHz.toFixed(0)} Hz`;
  return {
    code: 'noise-changed',
    message: `Two plays of the same sweep differ by up to ${worst.toFixed(0)} dB ${where}: something sounded or was lost during one of them.`,
    mend: 'Record again when it is quiet; keep the microphone and everybody in the car still between the sweeps.',
    values: { changeDb: worst, fromHz, toHz },
    severity: 'limit',
  };
}

function movedGain(changeDb: number): Finding {
  return {
    code: 'agc',
    message: `The recording gain moved: the same sweep came ${Math.abs(changeDb).toFixed(1)} dB ${changeDb > 0 ? 'louder' : 'quieter'} the second time.`,
    mend: 'Switch automatic gain and compression off in the recorder, or use a plain recorder, and record again.',
    values: { changeDb },
  };
}

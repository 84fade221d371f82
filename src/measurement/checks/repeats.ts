// A sweep that the track plays more than once must sound the same each time.
import type { SweepSegment } from '../../signals/track.ts';
import { sameSweep } from '../plays-agree.ts';
import type { SweepReading } from '../sweep-reading.ts';
import type { Finding } from './take-context.ts';

/** Change of all levels alike that no driver makes between two plays at one level, dB. */
const GAIN_DB = 0.7;
/** Change of one third octave against the others that no microphone stand makes, dB. */
const UNLIKE_DB = 3;
const LEAST_BANDS = 3;

export interface PlayedSweep {
  segment: SweepSegment;
  reading: Pick<SweepReading, 'bands' | 'snr'>;
}

/** So far over the background a third octave is known to half a decibel, and missed where the other play has nothing. */
const CLEAR_DB = 20;

interface BandChange {
  fHz: number;
  db: number;
}

/** Signal to noise of a reading in one third octave, dB; 0 where it is not known. */
function snrAt({ reading }: PlayedSweep, fHz: number): number {
  const at = reading.snr.fHz.findIndex((known) => Math.abs(known / fHz - 1) < 0.01);
  return reading.snr.db[at] ?? 0;
}

/** Third octaves that are clear in both readings, and what they changed by. */
function changesOf(one: PlayedSweep, other: PlayedSweep): BandChange[] {
  const { fHz, levelDb } = one.reading.bands;
  return fHz.flatMap((f, i) => {
    const [before, after] = [levelDb[i], other.reading.bands.levelDb[i]];
    if (before === null || after === null || after === undefined) return [];
    return Math.min(snrAt(one, f), snrAt(other, f)) >= CLEAR_DB ? [{ fHz: f, db: after - before }] : [];
  });
}

/** Third octaves that are clear in one reading and drowned in the other: changed by what is missing at least. */
function missingIn(one: PlayedSweep, other: PlayedSweep): BandChange[] {
  return one.reading.bands.fHz.flatMap((f, i) => {
    const [clear, drowned] = one.reading.bands.levelDb[i] === null ? [other, one] : [one, other];
    if (clear.reading.bands.levelDb[i] === null || drowned.reading.bands.levelDb[i] !== null) return [];
    const snrDb = snrAt(clear, f);
    return snrDb >= CLEAR_DB ? [{ fHz: f, db: (drowned === other ? -1 : 1) * (snrDb - CLEAR_DB / 2) }] : [];
  });
}

function medianDb(changes: BandChange[]): number {
  const sorted = changes.map(({ db }) => db).sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
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
    if (!again) continue;
    const changes = changesOf(sweeps[i], again);
    const missing = missingIn(sweeps[i], again);
    if (changes.length + missing.length < LEAST_BANDS) continue;
    const changeDb = medianDb(changes);
    const unlike = [...changes.filter(({ db }) => Math.abs(db - changeDb) > UNLIKE_DB), ...missing];
    unlike.sort((a, b) => a.fHz - b.fHz);
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

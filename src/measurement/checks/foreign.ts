// Something else sounded while a sweep played, or a piece of the recording is not what was recorded there.
import type { SweepSegment } from '../../signals/track.ts';
import { foreignDensityAt, type JudgedFrame } from '../foreign-sound/foreign-sound.ts';
import { densityBetween, type NoiseDensity } from '../noise-density.ts';
import type { SweepReading } from '../sweep-reading.ts';
import type { Finding } from './take-context.ts';

/** A third octave so little over the foreign sound may be wrong by more than a decibel. */
const HARMED_DB = 16;

export interface HeardSweep {
  segment: SweepSegment;
  reading: Pick<SweepReading, 'snr'>;
  frames: readonly JudgedFrame[];
  /** Noise that the reading reckoned with, foreign sound included. */
  noise: NoiseDensity | null;
}

/** What the first of the sweeps that is spoilt by other sound says of the take; null where none is. */
export function foreignFinding(sweeps: readonly HeardSweep[], rateHz: number): Finding | null {
  for (const sweep of sweeps) {
    const finding = cut(sweep, rateHz) ?? hushed(sweep, rateHz) ?? drowned(sweep, rateHz);
    if (finding) return finding;
  }
  return null;
}

/** Frames in a row that a single click or step fills: two overlap at each place, a third may catch its edge. */
const CLICK_FRAMES = 3;
/** A step in the wave this high against the wave's own height is no knock on the car: power ratio. */
const STEP_SHARE = 0.02;
/** A rattle steps again and again. */
const MOST_CUTS = 4;

/** Steps in the wave where one piece of sound was put behind another. */
function cut({ frames }: HeardSweep, rateHz: number): Finding | null {
  const cuts: JudgedFrame[] = [];
  for (let i = 0; i < frames.length; i++) {
    if (!(frames[i].density ?? 0) || (frames[i - 1]?.density ?? 0) > 0) continue;
    let end = i;
    while ((frames[end].density ?? 0) > 0 && end + 1 < frames.length) end++;
    const run = frames.slice(i, Math.max(end, i + 1));
    const alone = frames[i - 1]?.density === 0 || frames[end]?.density === 0;
    const high = run.find(({ stepHeight, power }) => stepHeight ** 2 > STEP_SHARE * 2 * power);
    if (run.length <= CLICK_FRAMES && alone && high) cuts.push(high);
  }
  if (cuts.length === 0 || cuts.length > MOST_CUTS) return null;
  const [{ start }] = cuts;
  return {
    code: 'noise-changed',
    message: `The wave jumps at ${(start / rateHz).toFixed(2)} s, while the sweep plays: a loud click, or a piece that does not belong there.`,
    mend: 'Record again. If it happens each time, use another recorder, or a plainer way to carry the file over.',
    atS: start / rateHz,
    values: { jumps: cuts.length },
    severity: 'limit',
  };
}

const HUSHED_SHARE = 0.25;
const HUSHED_FRAMES = 3;
const LEAST_BANDS = 8;

/** Free bands quieter than the background that is always there. */
function hushed({ frames }: HeardSweep, rateHz: number): Finding | null {
  const shares = frames.map(({ excess }) => {
    const known = excess.filter((value): value is number => value !== null);
    return known.length < LEAST_BANDS ? 1 : known.reduce((sum, value) => sum + value, 0) / known.length;
  });
  const at = shares.findIndex((_, i) => {
    const run = shares.slice(i, i + HUSHED_FRAMES);
    return run.length === HUSHED_FRAMES && run.every((share) => share < HUSHED_SHARE);
  });
  if (at < 0) return null;
  const changeDb = 10 * Math.log10(Math.max(shares[at], 1e-9));
  const atS = frames[at].start / rateHz;
  return {
    code: 'noise-changed',
    message: `From ${atS.toFixed(2)} s on, while the sweep plays, the recording is ${(-changeDb).toFixed(0)} dB quieter than its own background: sound is missing there.`,
    mend: 'Switch noise suppression and voice modes off, or use a plain recorder, and record again.',
    atS,
    values: { changeDb },
    severity: 'limit',
  };
}

/** Bands of the response that other sound comes near. */
function drowned({ segment, reading, frames, noise }: HeardSweep, rateHz: number): Finding | null {
  if (!noise || !frames.some(({ density }) => (density ?? 0) > 0)) return null;
  const harmed = reading.snr.fHz.filter((fHz, i) => {
    const snrDb = reading.snr.db[i];
    const foreign = foreignDensityAt(frames, segment, fHz);
    return snrDb !== null && snrDb < HARMED_DB && 2 * foreign > densityBetween(noise, fHz / 1.12, fHz * 1.12);
  });
  if (harmed.length === 0) return null;
  const loudest = frames.reduce((most, frame) => ((frame.density ?? 0) > (most.density ?? 0) ? frame : most));
  const [fromHz, toHz] = [harmed[0], harmed[harmed.length - 1]];
  return {
    code: 'noise-changed',
    message: `Something else sounds at ${(loudest.start / rateHz).toFixed(1)} s, while the sweep plays, and reaches into the response ${fromHz === toHz ? `at ${fromHz.toFixed(0)}` : `from ${fromHz.toFixed(0)} to ${toHz.toFixed(0)}`} Hz.`,
    mend: 'Record again when it is quiet; nobody speaks, knocks or moves while the track plays. If it comes each time, look for a loose part.',
    atS: loudest.start / rateHz,
    values: { fromHz, toHz },
    severity: 'limit',
  };
}

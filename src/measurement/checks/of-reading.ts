// What only shows once the stimuli have been read: drowned in noise, or played by the wrong driver.

import { powerOfTwoFrom, realFft } from '../../signals/fft.ts';
import type { Anchor } from '../anchor.ts';
import type { SweepImpulse } from '../sweep-impulse.ts';
import { spectrumAbout, windowed } from '../sweep-impulse.ts';
import type { SweepReading } from '../sweep-reading.ts';
import type { Finding } from './take-context.ts';

const LOW_SNR_DB = 15;
/** A sweep that played leaves a compact response; what is left of another sound is spread out. */
const LEAST_COMPACTNESS_DB = 3;

/** The stimulus hardly stands out of the background over the driver's band. */
export function lowSnr(readings: Pick<SweepReading, 'bandSnrDb' | 'compactnessDb'>[]): Finding | null {
  const drowned = readings.filter(
    ({ bandSnrDb, compactnessDb }) =>
      (bandSnrDb !== null && bandSnrDb < LOW_SNR_DB) || compactnessDb < LEAST_COMPACTNESS_DB,
  );
  if (drowned.length === 0) return null;
  const all = drowned.length === readings.length;
  const snrDb = Math.min(...drowned.map(({ bandSnrDb }) => bandSnrDb ?? 0));
  return {
    code: 'low-snr',
    message: all
      ? `The driver stands only ${snrDb.toFixed(0)} dB over the background in its own band; 15 dB are needed.`
      : `${drowned.length} of ${readings.length} stimuli hardly stand out of the background.`,
    mend: 'Turn the playback up in small steps, switch fans and engine off, close the doors, or play a longer track.',
    values: { snrDb },
    severity: all ? 'stop' : 'limit',
  };
}

const SAME_PATH = 0.5;

/**
 * Likeness of two responses over the markers' band, 0 .. 1: 1 when their phases agree but for a constant.
 *
 * Phases alone, or two drivers behind the same steep filter would look alike by the little it lets through.
 */
export function pathLikeness(impulse: SweepImpulse, anchor: Anchor): number {
  const rateHz = anchor.rateHz;
  const stretch = windowed(impulse, { fromS: -0.005, toS: 0.05, riseS: 0.002, fallS: 0.02 });
  const size = powerOfTwoFrom(Math.max(stretch.samples.length, anchor.samples.length) * 2);
  const sweep = spectrumAbout(stretch, 0, rateHz, size);
  const cut = anchor.samples.slice(
    anchor.zeroIndex - Math.round(0.005 * rateHz),
    anchor.zeroIndex + Math.round(0.05 * rateHz),
  );
  const reference = realFft(cut, size);
  const lead = Math.round(0.005 * rateHz);
  const low = Math.max(anchor.bandHz.low, impulse.shape.fromHz * 1.2);
  const high = Math.min(anchor.bandHz.high, impulse.toHz / 1.2);
  if (Math.log2(high / low) < 0.5) return 0;
  let crossRe = 0;
  let crossIm = 0;
  let count = 0;
  for (let k = Math.ceil((low * size) / rateHz); k <= (high * size) / rateHz; k++) {
    const turn = (2 * Math.PI * k * lead) / size;
    const c = Math.cos(turn);
    const s = Math.sin(turn);
    const rr = reference.re[k] * c - reference.im[k] * s;
    const ri = reference.re[k] * s + reference.im[k] * c;
    const scale = Math.hypot(sweep.re[k], sweep.im[k]) * Math.hypot(rr, ri);
    if (scale === 0) continue;
    crossRe += (sweep.re[k] * rr + sweep.im[k] * ri) / scale;
    crossIm += (sweep.im[k] * rr - sweep.re[k] * ri) / scale;
    count++;
  }
  return count > 0 ? (crossRe ** 2 + crossIm ** 2) / count ** 2 : 0;
}

/** The sweep is heard through the driver that should play the markers alone. */
export function sideMixed(likeness: number, side: string, anchorSide: string): Finding | null {
  if (likeness < SAME_PATH) return null;
  return {
    code: 'side-mixed',
    message: `The ${side} sweep is heard through the driver that plays the ${anchorSide} markers: the routing mixes the sides.`,
    mend: 'Check balance, mono and routing of source and processor; mute every output but the two under test.',
    values: { likeness },
  };
}

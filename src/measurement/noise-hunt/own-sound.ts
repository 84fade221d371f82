// What the car makes itself: as loud with the system off, or at a multiple of what the engine is heard at.
import type { HuntTakes, Paired } from './paired-tones.ts';
import type { HeardTone, TakeNoise } from './take-noise.ts';
import type { NoiseSpectrum } from './tone-search.ts';

/** A tone may be this much softer with the system off and still be the car's. */
const OWN_WITHIN_DB = 6;
/** The engine may turn a little faster or slower in another take. */
const OWN_WITHIN_SHARE = 0.012;

/** The level that a tone near a frequency would have, tones that stand too close to be told apart included. */
function levelNear({ power, binHz, toneWidthBins }: NoiseSpectrum, fHz: number): number {
  const reach = Math.max(2, (OWN_WITHIN_SHARE * fHz) / binHz);
  const from = Math.max(1, Math.floor(fHz / binHz - reach));
  const to = Math.min(power.length - 1, Math.ceil(fHz / binHz + reach));
  let most = 0;
  for (let k = from; k <= to; k++) most = Math.max(most, power[k]);
  return 10 * Math.log10(Math.max(most * toneWidthBins, 1e-30));
}

/** Whether the car makes a tone itself: it is as loud with the system off; null where no such take was made. */
export function carsOwn(paired: Paired, { systemOff, engineAlone }: HuntTakes): boolean | null {
  const compared = (tone: HeardTone | undefined, background: TakeNoise | undefined): boolean | null =>
    tone && background?.spectrum ? levelNear(background.spectrum, tone.fHz) > tone.levelDbfs - OWN_WITHIN_DB : null;
  return compared(paired.off, systemOff) ?? compared(paired.idle, engineAlone);
}

/** Frequencies agree this well with a multiple, as a share. */
const MULTIPLE_WITHIN = 0.012;
/** A multiple this high falls near any tone by chance. */
const HIGHEST_MULTIPLE = 16;

/** Whether a tone stands at a multiple of one that the engine makes, at one and the same speed. */
export function onEngineOrders(fHz: number, engineHz: readonly number[]): boolean {
  return engineHz.some((oneHz) => {
    const times = fHz / oneHz;
    const nearest = Math.round(times);
    return nearest >= 1 && nearest <= HIGHEST_MULTIPLE && Math.abs(times / nearest - 1) < MULTIPLE_WITHIN;
  });
}

/** Where a tone stands at idle, or would stand if it followed the engine; null where that is not known. */
export function idleHzOf({ idle, revs }: Paired, takes: HuntTakes): number | null {
  if (idle) return idle.fHz;
  const [idleRpm, revsRpm] = [takes.idle?.rpm, takes.revs?.rpm];
  return revs && idleRpm && revsRpm ? (revs.fHz * idleRpm) / revsRpm : null;
}

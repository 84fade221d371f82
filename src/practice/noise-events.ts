// Noises that come and go while a take is recorded.
import { seedFor, whiteNoise } from './chance.ts';
import { filtered, highPass2, lowPass1, lowPass2 } from './sections.ts';

/** One noise. Levels are rms re a full-scale square at recorder gain 0 dB, times in s of the recording. */
export type NoiseEvent =
  /** Swells, passes and fades: `widthS` is the time between its half-height points. */
  | { kind: 'lorry'; atS: number; widthS: number; levelDb: number }
  /** A blower switched on (and off again at `toS`). */
  | { kind: 'blower'; fromS: number; toS: number; levelDb: number }
  /** Mains and its multiples; each partial `fallDb` under the one before. */
  | { kind: 'hum'; fHz: number; partials: number; levelDb: number; fallDb: number }
  /** Alternator: a tone that wanders with the revs, with its double. */
  | { kind: 'whine'; fHz: number; wanderShare: number; wanderS: number; levelDb: number };

function addShaped(
  target: Float64Array,
  noise: Float64Array,
  levelDb: number,
  weight: (index: number) => number,
): void {
  let power = 0;
  for (const value of noise) power += value * value;
  const gain = 10 ** (levelDb / 20) / Math.sqrt(power / Math.max(1, noise.length) || 1);
  for (let n = 0; n < target.length; n++) target[n] += gain * weight(n) * noise[n];
}

/** Adds one event to the sound at the recorder. */
export function addEvent(target: Float64Array, event: NoiseEvent, rateHz: number, seed: number): void {
  const drawSeed = seedFor(seed, event.kind);
  if (event.kind === 'lorry') {
    const rumble = filtered(
      [highPass2(35, 1, rateHz), lowPass1(120, rateHz), lowPass2(Math.min(2500, 0.4 * rateHz), Math.SQRT1_2, rateHz)],
      whiteNoise(drawSeed, target.length),
    );
    const spread = event.widthS / 2.3548;
    addShaped(target, rumble, event.levelDb, (n) => Math.exp(-0.5 * ((n / rateHz - event.atS) / spread) ** 2));
  } else if (event.kind === 'blower') {
    const air = filtered(
      [highPass2(80, Math.SQRT1_2, rateHz), lowPass1(Math.min(1500, 0.4 * rateHz), rateHz)],
      whiteNoise(drawSeed, target.length),
    );
    const rise = (t: number) => 1 / (1 + Math.exp(-t / 0.05));
    addShaped(target, air, event.levelDb, (n) => rise(n / rateHz - event.fromS) * (1 - rise(n / rateHz - event.toS)));
  } else if (event.kind === 'hum') {
    for (let partial = 1; partial <= event.partials; partial++) {
      const fHz = event.fHz * partial;
      const peak = Math.SQRT2 * 10 ** ((event.levelDb - (partial - 1) * event.fallDb) / 20);
      if (fHz > 0.45 * rateHz) break;
      for (let n = 0; n < target.length; n++) target[n] += peak * Math.sin((2 * Math.PI * fHz * n) / rateHz + partial);
    }
  } else {
    const peak = Math.SQRT2 * 10 ** (event.levelDb / 20);
    let phase = 0;
    for (let n = 0; n < target.length; n++) {
      const wander = 1 + event.wanderShare * Math.sin((2 * Math.PI * n) / rateHz / event.wanderS);
      phase += (2 * Math.PI * event.fHz * wander) / rateHz;
      target[n] += peak * (Math.sin(phase) + 0.3 * Math.sin(2 * phase));
    }
  }
}

// The band of a driver as one sweep shows it.
import { dbFromPower } from '../base/decibel.ts';
import type { OnsetBand } from './early-sound/onset-models.ts';
import { octaveGrid } from './grids.ts';
import { passBand } from './pass-band.ts';
import type { PassBand } from './reading.ts';
import type { SweepQuestion } from './sweep-question.ts';
import { gridResponse, type LinearResponse, trustedRange } from './sweep-response.ts';

/** Signal to noise from which a level is shown, power ratio. */
export const SHOWN_SNR = 2;
/** How far under the band's level the response is still used for timing, dB, and how far over the noise, power ratio. */
const DEEPEST_DB = 25;
const CLEAR_SNR = 30;

export interface FoundBand {
  levels: { fHz: number; levelDb: number }[];
  band: PassBand;
  /** The band's corners, or the ends of what was measured. */
  passHz: { low: number; high: number };
  measuredHz: { low: number; high: number };
  snrDb: number | null;
}

/** Pass band from the third-octave-smoothed response where it stands out of the noise. */
export function foundBand(question: SweepQuestion, response: LinearResponse): FoundBand {
  const { impulse, noise } = question;
  const trusted = trustedRange(impulse);
  const fHz = octaveGrid(trusted.lowHz, trusted.highHz, 24);
  const smooth = gridResponse(response, fHz, 1 / 3, noise);
  const levels = smooth.power.map((power, i) => {
    const floor = smooth.noise[i] ?? 0;
    return power > (1 + SHOWN_SNR) * floor ? dbFromPower(Math.max(power - floor, 1e-30)) : null;
  });
  const band = passBand(fHz, levels);
  const passHz =
    question.bandHz ??
    noNarrowerThanSeen({
      low: band.lowHz ?? firstKnown(fHz, levels) ?? trusted.lowHz,
      high: band.highHz ?? firstKnown([...fHz].reverse(), [...levels].reverse()) ?? trusted.highHz,
    });
  // Around the band, as far as the response stays 15 dB over the noise and within 25 dB of the band's level.
  const inside = levels.filter(
    (level, i): level is number => level !== null && fHz[i] >= passHz.low && fHz[i] <= passHz.high,
  );
  inside.sort((x, y) => x - y);
  const median = inside[inside.length >> 1] ?? 0;
  const clear = (i: number): boolean => {
    const level = levels[i];
    const floor = smooth.noise[i];
    return level !== null && level > median - DEEPEST_DB && (floor === null || smooth.power[i] > CLEAR_SNR * floor);
  };
  let low = passHz.low;
  let high = passHz.high;
  for (let i = fHz.length - 1; i >= 0; i--) {
    if (fHz[i] >= passHz.low) continue;
    if (!clear(i)) break;
    low = fHz[i];
  }
  for (let i = 0; i < fHz.length; i++) {
    if (fHz[i] <= passHz.high) continue;
    if (!clear(i)) break;
    high = fHz[i];
  }
  const snrs = fHz
    .flatMap((f, i) => {
      const floor = smooth.noise[i];
      if (f < passHz.low || f > passHz.high || floor === null || floor <= 0) return [];
      return [dbFromPower(Math.max(smooth.power[i] / floor - 1, 1e-9))];
    })
    .sort((a, b) => a - b);
  const known = fHz.flatMap((f, i) => (levels[i] === null ? [] : [{ fHz: f, levelDb: levels[i] as number }]));
  return {
    levels: known,
    band,
    passHz,
    measuredHz: { low, high },
    snrDb: snrs.length > 0 ? snrs[snrs.length >> 1] : null,
  };
}

/** A band seen through third-octave smoothing is a third of an octave wide at least. */
function noNarrowerThanSeen({ low, high }: { low: number; high: number }): { low: number; high: number } {
  if (high > low * 2 ** (1 / 3)) return { low, high };
  const middle = Math.sqrt(low * high);
  return { low: middle * 2 ** (-1 / 6), high: middle * 2 ** (1 / 6) };
}

function firstKnown(fHz: number[], levels: (number | null)[]): number | null {
  const at = levels.findIndex((level) => level !== null);
  return at < 0 ? null : fHz[at];
}

/** The band as its onset shows it: ends that were not reached are the sweep's. */
export function onsetBand(question: SweepQuestion, { band, passHz }: FoundBand): OnsetBand {
  return { ...passHz, openHigh: question.bandHz === null && band.highHz === null };
}

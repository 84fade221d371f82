// What the bands say: against a straight line that was agreed, and along the path of the microphone.
import { fixedText, frequencyText, type NumberStyle } from '../../charts/number-words.ts';
import { deviationAt } from '../../measurement/microphone-calibration.ts';
import { weightingPower } from '../../signals/weighting.ts';

export type Agreed = 'none' | 'level' | 'falling';

/** How an agreed sound leans, dB an octave. */
const slopes: Record<Exclude<Agreed, 'none'>, number> = { level: 0, falling: -1 };
export const toleranceDb = 3;
/** Bands that set how high the agreed line lies: where cars are neither boosted nor rolled off on purpose. */
const anchorHz = { from: 200, to: 4000 };

/** Levels as they would be with a true microphone: its deviation taken out, full scale as sound pressure if known. */
export function truedLevels(
  levelsDb: ArrayLike<number>,
  fHz: ArrayLike<number>,
  microphone: {
    fullScaleSplDb?: number | undefined;
    correction?: { fHz: number[]; deviationDb: number[] } | undefined;
  } | null,
): Float64Array {
  const out = new Float64Array(levelsDb.length);
  for (let b = 0; b < out.length; b++) {
    const deviation = microphone?.correction ? deviationAt(microphone.correction, fHz[b]).deviationDb : 0;
    out[b] = levelsDb[b] - deviation + (microphone?.fullScaleSplDb ?? 0);
  }
  return out;
}

/** The agreed level of each band, as high as the average makes it; null without an agreement. */
export function agreedLevels(
  averageDb: ArrayLike<number>,
  fHz: ArrayLike<number>,
  agreed: Agreed,
): Float64Array | null {
  if (agreed === 'none') return null;
  const slope = slopes[agreed];
  let sum = 0;
  let count = 0;
  for (let b = 0; b < fHz.length; b++) {
    if (fHz[b] < anchorHz.from || fHz[b] > anchorHz.to) continue;
    sum += averageDb[b] - slope * Math.log2(fHz[b] / 1000);
    count++;
  }
  if (count === 0) return null;
  return Float64Array.from(fHz, (f) => sum / count + slope * Math.log2(f / 1000));
}

export interface BandOut {
  fHz: number;
  offDb: number;
}

/** Bands whose average leaves the agreed sound, the furthest first. */
export function bandsOut(averageDb: ArrayLike<number>, fHz: ArrayLike<number>, agreedDb: ArrayLike<number>): BandOut[] {
  return Array.from(fHz, (f, b) => ({ fHz: f, offDb: averageDb[b] - agreedDb[b] }))
    .filter(({ offDb }) => Math.abs(offDb) > toleranceDb)
    .sort((p, q) => Math.abs(q.offDb) - Math.abs(p.offDb));
}

/** The level of all bands together, A-weighted at their centres, dB. */
export function aWeightedDb(levelsDb: ArrayLike<number>, fHz: ArrayLike<number>): number {
  let power = 0;
  for (let b = 0; b < fHz.length; b++) power += 10 ** (levelsDb[b] / 10) * weightingPower('A', fHz[b]);
  return 10 * Math.log10(Math.max(power, 1e-20));
}

const bandName = (fHz: number, style: NumberStyle): string => frequencyText(fHz, style);

/** One sentence for the bands as they stand. */
export function liveSentence(
  bands: { averageDb: ArrayLike<number>; spreadDb: ArrayLike<number>; fHz: ArrayLike<number>; seconds: number },
  agreedDb: ArrayLike<number> | null,
  style: NumberStyle,
): string {
  const { averageDb, spreadDb, fHz, seconds } = bands;
  if (seconds < 2) return 'Listening. The average begins to stand after a few seconds.';
  if (agreedDb) {
    const out = bandsOut(averageDb, fHz, agreedDb);
    if (out.length === 0) return 'Every band lies inside the agreed sound.';
    const told = out.slice(0, 2).map(({ fHz: f, offDb }) => {
      const size = fixedText(Math.abs(offDb), 0, style);
      return offDb > 0
        ? `${bandName(f, style)} stands ${size} dB over it`
        : `${bandName(f, style)} lies ${size} dB under it`;
    });
    const count = out.length === 1 ? 'One band leaves' : `${out.length} bands leave`;
    const rest = out.length <= 2 ? ' The rest is inside.' : '';
    return `${count} the agreed sound: ${told.join(', ')}.${rest}`;
  }
  let widest = 0;
  for (let b = 1; b < fHz.length; b++) if (spreadDb[b] > spreadDb[widest]) widest = b;
  const spread = fixedText(spreadDb[widest], 1, style);
  if (spreadDb[widest] < 2) return `Along this path no band moves more than ${spread} dB: one setting suits all of it.`;
  return `${bandName(fHz[widest], style)} moves most along this path, by ${spread} dB.`;
}

/** The bands in words, for whoever does not see them: the average's highest and lowest band, with their levels. */
export function bandsText(
  averageDb: ArrayLike<number>,
  fHz: ArrayLike<number>,
  unit: string,
  style: NumberStyle,
): string {
  if (fHz.length === 0) return '';
  let [highest, lowest] = [0, 0];
  for (let b = 1; b < fHz.length; b++) {
    if (averageDb[b] > averageDb[highest]) highest = b;
    if (averageDb[b] < averageDb[lowest]) lowest = b;
  }
  const told = (b: number) => `${bandName(fHz[b], style)} at ${fixedText(averageDb[b], 1, style)} ${unit}`;
  return `On average ${told(highest)} is the highest band, ${told(lowest)} the lowest.`;
}

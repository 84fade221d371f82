// Whether left and right pull together in the bass: noise that is the same on both sides against noise that is opposite.
import type { NoiseSegment } from '../signals/track.ts';
import type { BandLevels, PairSign } from './reading.ts';

/** Where a pair an arm's length apart adds at any seat, Hz; the band limits with room for mid-band frequencies. */
const BASS_HZ = { low: 60, high: 127 };
const LEAST_BANDS = 3;
/** In simulated cars that were wired rightly the opposite noise was this much louder in less than one of a hundred, dB. */
const TELLING_DB = 5;

interface Heard {
  segment: NoiseSegment;
  bands: BandLevels;
}

function bassDb({ bands }: Heard): number | null {
  const powers = bands.fHz.flatMap((f, i) => {
    const level = bands.levelDb[i];
    return f >= BASS_HZ.low && f <= BASS_HZ.high && level !== null ? [10 ** (level / 10)] : [];
  });
  if (powers.length < LEAST_BANDS) return null;
  return 10 * Math.log10(powers.reduce((sum, power) => sum + power, 0) / powers.length);
}

const alike = (one: NoiseSegment, other: NoiseSegment): boolean =>
  (['side', 'fromHz', 'toHz', 'levelDbfs'] as const).every((field) => one[field] === other[field]);

/**
 * What same and opposite noise say of a pair: a hint beside the polarity of each, never a proof.
 *
 * @returns null where the track does not play both on both sides, alike but for their relation
 */
export function pairSign(noises: readonly Heard[]): PairSign | null {
  const of = (relation: string, like?: Heard) =>
    noises.find(
      ({ segment }) =>
        segment.side === 'both' &&
        segment.relation === relation &&
        (like === undefined || alike(segment, like.segment)),
    );
  const same = of('same');
  const opposite = same && of('opposite', same);
  if (!same || !opposite) return null;
  const [one, other] = [bassDb(same), bassDb(opposite)];
  if (one === null || other === null) {
    return { sign: 0, sameOverOppositeDb: null, reason: 'too little of 60 to 125 Hz stands out of the background' };
  }
  const sameOverOppositeDb = one - other;
  const size = `${Math.abs(sameOverOppositeDb).toFixed(1)} dB`;
  if (Math.abs(sameOverOppositeDb) < TELLING_DB) {
    return { sign: 0, sameOverOppositeDb, reason: `the two differ by ${size} only; ${TELLING_DB} dB would tell` };
  }
  const sign = sameOverOppositeDb > 0 ? 1 : -1;
  const louder = sign > 0 ? 'same' : 'opposite';
  return { sign, sameOverOppositeDb, reason: `from 60 to 125 Hz ${louder} noise is ${size} louder at this seat` };
}

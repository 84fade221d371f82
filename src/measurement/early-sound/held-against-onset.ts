// Two ways to time one sound: by the phase of its whole band, and by where it begins.
import type { EarlySound } from './early-sound.ts';
import type { OnsetBand } from './onset-models.ts';

export interface HeldArrival {
  arrivalS: number;
  /** What the disagreement adds to the uncertainty, s. */
  doubtS: number;
  /** Both say the same, and the onset is clear: no louder sound later can have hidden this one. */
  agreed: boolean;
}

/** They agree this close, in periods of the band's middle; an end that was not measured bends the onset's models. */
const AGREEING_PERIODS = 0.05;
const AGREEING_PERIODS_OPEN = 0.2;
/** Further apart than this, one of the two heard a reflection. */
const REFLECTION_PERIODS = 1;
/** Uncertainty of an onset by itself. */
const ONSET_SIGMA_PERIODS = 0.12;
const CLEAR_RIVALRY = 0.5;

/**
 * An arrival by phase, held against where the sound begins.
 *
 * Where the two differ, neither is certain: the middle is taken, and half the distance is doubt. Where they differ by more
 * than a period the phase has locked on to a reflection, and the onset stands.
 *
 * @param arrivalS  by phase, s
 * @param early     of the same impulse response; null where it has none, and then nothing is held against it
 * Source: own rule; how often it holds is in docs/accuracy.md.
 */
export function heldAgainstOnset(arrivalS: number, early: EarlySound | null, band: OnsetBand): HeldArrival {
  if (early === null || early.atEdge) return { arrivalS, doubtS: 0, agreed: false };
  const periodS = 1 / Math.sqrt(band.low * band.high);
  const apartS = Math.abs(arrivalS - early.arrivalS);
  if (apartS <= (band.openHigh ? AGREEING_PERIODS_OPEN : AGREEING_PERIODS) * periodS) {
    return { arrivalS, doubtS: 0, agreed: early.rivalry <= CLEAR_RIVALRY };
  }
  if (apartS > REFLECTION_PERIODS * periodS) {
    return { arrivalS: early.arrivalS, doubtS: ONSET_SIGMA_PERIODS * periodS, agreed: false };
  }
  return { arrivalS: (arrivalS + early.arrivalS) / 2, doubtS: apartS / 2, agreed: false };
}

/** A reference's onset this much earlier than its phase says, s, may be its direct sound, if its sign is at all plain. */
const EARLIER_S = 0.00015;
const PLAIN_RIVALRY = 0.95;

/** How much earlier than by phase the time reference may have sounded, s: 0 where its onset does not contradict. */
export function earlierSoundS(arrivalS: number, early: EarlySound | null): number {
  if (early === null || early.atEdge || early.rivalry > PLAIN_RIVALRY) return 0;
  const earlierS = arrivalS - early.arrivalS;
  return earlierS > EARLIER_S ? earlierS : 0;
}

// Which way a driver first moves, or why that cannot be said.
import type { EarlySound } from './early-sound/early-sound.ts';
import type { FoundBand } from './found-band.ts';
import type { Polarity } from './reading.ts';
import { ARRIVAL_SNR_DB, type Sought } from './sought-arrival.ts';

/** What the best onset of the other sign leaves unexplained must be this much more than the best leaves. */
const MOST_ONSET_RIVALRY = 0.9;
const SURE_ONSET_RIVALRY = 0.3;
/** The same of a turned over onset with an all-pass in it, the other way up: below, a hidden filter may be the reason. */
const LEAST_ALL_PASS = 0.8;
const SURE_ALL_PASS = 1.4;

/**
 * Sign of the path from the file to the recording.
 *
 * @param signed  by the phase of the whole band
 * @param early   how the sound begins; null where the search held nothing
 * @returns sign 0 where it cannot be said, with the reason; confidence 0.8 and more only where both agree and no hidden
 *   filter would explain the other sign
 * Source: own rule; how often it is right is in docs/accuracy.md.
 */
export function toldPolarity(found: FoundBand, signed: Sought['signed'], early: EarlySound | null): Polarity {
  const cannotSay = (reason: string): Polarity => ({ sign: 0, confidence: 0, reason });
  if (found.snrDb !== null && found.snrDb < ARRIVAL_SNR_DB) {
    return cannotSay(`only ${found.snrDb.toFixed(0)} dB over the noise; 15 dB are needed`);
  }
  if (early === null || early.atEdge) return cannotSay('no clear arrival inside the time window searched');
  if (early.rivalry > MOST_ONSET_RIVALRY) return cannotSay('both signs fit nearly equally well');
  if (early.allPassRivalry < LEAST_ALL_PASS) {
    return cannotSay('the other sign with a phase-turning filter in the path fits as well');
  }
  // Second opinion: the phase of the whole band against its magnitude.
  const agrees = signed.sign === early.sign;
  const clear = early.rivalry < SURE_ONSET_RIVALRY && early.allPassRivalry >= SURE_ALL_PASS;
  if (!agrees && signed.certain && !clear) return cannotSay('how the sound begins and the phase of the band disagree');
  const snr = Math.min(1, ((found.snrDb ?? 20) - 10) / 10);
  const sure = clear && agrees && snr === 1;
  const fit = 1 - early.rivalry;
  return {
    sign: early.sign,
    confidence: sure ? 0.8 + 0.19 * fit : 0.5 + 0.25 * fit * snr,
    reason: `${sure ? 'sure' : 'likely'}: the sound begins as a driver behind a crossover does`,
  };
}

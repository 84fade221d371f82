// The impulse response as a piece of sound at a whole rate, for a file or a screen.
import { resampled } from '../signals/resample.ts';
import type { ImpulseResponse } from './reading.ts';
import { type SweepImpulse, windowed } from './sweep-impulse.ts';

const BEFORE_S = 0.02;
const AFTER_S = 0.3;

/** 20 ms before the arrival to 300 ms after it, brought to the track's rate. */
export function impulseAtRate(impulse: SweepImpulse, arrivalS: number, rateHz: number): ImpulseResponse {
  const fromS = arrivalS - BEFORE_S;
  const toS = arrivalS + Math.min(AFTER_S, impulse.tailS);
  const { samples, firstS } = windowed(impulse, { fromS, toS, riseS: 0.002, fallS: 0.02 });
  const step = impulse.rateHz / rateHz;
  const count = Math.floor((toS - fromS) * rateHz);
  const lead = Math.round(BEFORE_S * rateHz);
  // The arrival falls on a sample of the result.
  const first = (arrivalS - lead / rateHz - firstS) * impulse.rateHz;
  return { rateHz, arrivalIndex: lead, samples: resampled(samples, first, step, count) };
}

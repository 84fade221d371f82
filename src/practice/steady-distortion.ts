// Distortion of a steady sine at the microphone: each driver solved until it repeats itself, then one Fourier sum an order.
import type { Side } from '../signals/track.ts';
import { type Complex, complex, delayTurn, magnitude, product, scaled, sequenceResponse, sum } from './complex.ts';
import { radiated, roomResponse } from './path.ts';
import { type PlayingPlace, playingPlaces, shareOf, type TakeRequest } from './take-request.ts';

/** Harmonics of one steady sine, in percent of its fundamental at the microphone. */
export interface SteadyDistortion {
  /** As near to the frequency asked as a whole number of cycles comes, within 0.2 %. */
  fHz: number;
  /** Fundamental, dB re recorded full scale (peak of the sine). */
  fundamentalDb: number;
  thdPct: number;
  /** Orders 2, 3, 4 and 5. */
  orderPct: [number, number, number, number];
  /** Fundamental against what the small-signal response gives, dB; negative: compressed. */
  gainChangeDb: number;
}

const SETTLE_S = 0.5;

/** Whole cycles in about half a second, and the frequency at which they fit. */
function fitting(fHz: number, rateHz: number): { cycles: number; frames: number } {
  const cycles = Math.max(8, Math.round(0.5 * fHz));
  return { cycles, frames: Math.round((cycles * rateHz) / fHz) };
}

/** Harmonics 1 .. 5 that one place sends to the microphone; its flight included. */
function harmonicsOf(
  request: Pick<TakeRequest, 'car'>,
  one: PlayingPlace,
  sine: { fHz: number; frames: number; peak: number; limit: number; share: number; rateHz: number },
  linear: boolean,
): Complex[] {
  const { fHz, frames, rateHz } = sine;
  const settle = Math.ceil((SETTLE_S * rateHz) / frames) * frames;
  const drive = new Float64Array(settle + 2 * frames);
  for (let n = 0; n < drive.length; n++) {
    const played = sine.peak * Math.sin((2 * Math.PI * fHz * n) / rateHz);
    drive[n] = sine.share * Math.max(-sine.limit, Math.min(sine.limit, played));
  }
  // The last stretch is left out: the interpolation filters there look past the end.
  const steady = radiated(request.car, one.place, drive, rateHz, linear).subarray(settle, settle + frames);
  const ordersHz = [1, 2, 3, 4, 5].map((order) => order * fHz).filter((harmonicHz) => harmonicHz < 0.45 * rateHz);
  const room = roomResponse(request.car, one.place, ordersHz, rateHz);
  return ordersHz.map((harmonicHz, k) => {
    const bin = scaled(sequenceResponse(steady, harmonicHz, rateHz), 2 / frames);
    return product(product(bin, room[k]), delayTurn(harmonicHz, one.directS));
  });
}

function summed(all: Complex[][]): Complex[] {
  return [0, 1, 2, 3, 4].map((k) =>
    all.reduce((total, harmonics) => sum(total, harmonics[k] ?? complex(0)), complex(0)),
  );
}

/**
 * Harmonic distortion of steady sines at the microphone, cabin included, noise left out.
 *
 * @param request    car and the places that are on; recorder effects are not applied
 * @param levelDbfs  peak of the sine in the file
 * @param side       side of the file that carries it
 * @param fHz        20 .. 0.09 of the rate, so that five orders fit
 * @param rateHz     rate of the track
 * @returns one entry a frequency; orders above 0.45 of the rate count as 0
 * Source: IEC 60268-21 (total harmonic distortion re the fundamental), solved from the driver's equations.
 */
export function steadyDistortion(
  request: Pick<TakeRequest, 'car' | 'on'>,
  levelDbfs: number,
  side: Side,
  fHz: readonly number[],
  rateHz = 48_000,
): SteadyDistortion[] {
  const playing = playingPlaces(request).filter((one) => shareOf(one, side) !== 0);
  return fHz.map((askedHz) => {
    const { cycles, frames } = fitting(askedHz, rateHz);
    const exactHz = (cycles * rateHz) / frames;
    const at = (levelDb: number, linear: boolean) =>
      summed(
        playing.map((one) => {
          const peak = 10 ** (levelDb / 20);
          const limit = linear ? Number.POSITIVE_INFINITY : 10 ** (request.car.sourceClipDbfs / 20);
          const sine = { fHz: exactHz, frames, peak, limit, share: shareOf(one, side), rateHz };
          return harmonicsOf(request, one, sine, linear);
        }),
      ).map(magnitude);
    const [fundamental, ...orders] = at(levelDbfs, false);
    const [small] = at(levelDbfs, true);
    const percent = orders.map((order) => (fundamental > 0 ? (100 * order) / fundamental : 0));
    return {
      fHz: exactHz,
      fundamentalDb: 20 * Math.log10(Math.max(fundamental, 1e-12)),
      thdPct: Math.hypot(...percent),
      orderPct: percent as [number, number, number, number],
      gainChangeDb: 20 * Math.log10(Math.max(fundamental, 1e-12) / Math.max(small, 1e-12)),
    };
  });
}

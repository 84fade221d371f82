// Several stimuli of one take, averaged: powers for levels, waves for phase where they are the same path.
import { dbFromPower, powerFromDb } from '../base/decibel.ts';
import type { BandLevels, Curve, Distortion, PassBand, Polarity, Response, StimulusReading } from './reading.ts';

function powerMean(curves: Curve[]): Curve {
  return curves[0].map((_, i) => {
    const known = curves.flatMap((curve) => {
      const value = curve[i];
      return value === null || value === undefined ? [] : [powerFromDb(value)];
    });
    return known.length === 0 ? null : dbFromPower(known.reduce((sum, power) => sum + power, 0) / known.length);
  });
}

function rootMeanSquare(curves: Curve[]): Curve {
  return curves[0].map((_, i) => {
    const known = curves.map((curve) => curve[i]);
    if (known.some((value) => value === null || value === undefined)) return null;
    return Math.sqrt(known.reduce((sum: number, value) => sum + (value as number) ** 2, 0) / known.length);
  });
}

const sameGrid = (grids: number[][]): boolean =>
  grids.every((grid) => grid.length === grids[0].length && grid.every((f, i) => Math.abs(f / grids[0][i] - 1) < 1e-9));

/** Levels of one path that lie further apart than this have no mean worth showing, dB. */
const MOST_SPREAD_DB = 3;

const spreadDb = (responses: Response[], i: number): number => {
  const known = responses.flatMap(({ levelDb }) => levelDb[i] ?? []);
  return known.length > 0 ? Math.max(...known) - Math.min(...known) : 0;
};

/** Power mean of the levels; phase only where all stimuli took the same path, and valid there only if they agree. */
export function averageResponse(responses: Response[], samePath: boolean): Response | null {
  if (responses.length === 0 || !sameGrid(responses.map(({ fHz }) => fHz))) return null;
  const { fHz } = responses[0];
  const phaseDeg: Curve = fHz.map((_, i) => {
    if (!samePath) return null;
    let re = 0;
    let im = 0;
    for (const { phaseDeg: phases } of responses) {
      const phase = phases[i];
      if (phase === null) return null;
      re += Math.cos((phase * Math.PI) / 180);
      im += Math.sin((phase * Math.PI) / 180);
    }
    return (Math.atan2(im, re) * 180) / Math.PI;
  });
  return {
    fHz,
    levelDb: powerMean(responses.map(({ levelDb }) => levelDb)),
    phaseDeg,
    valid: fHz.map(
      (_, i) => responses.every(({ valid }) => valid[i]) && (!samePath || spreadDb(responses, i) <= MOST_SPREAD_DB),
    ),
    levelSigmaDb: rootMeanSquare(responses.map(({ levelSigmaDb }) => levelSigmaDb)).map((sigma) =>
      sigma === null ? null : sigma / Math.sqrt(responses.length),
    ),
  };
}

export function averageDistortion(readings: Distortion[]): Distortion | null {
  if (readings.length === 0 || !sameGrid(readings.map(({ fHz }) => fHz))) return null;
  const mean = (pick: (reading: Distortion) => Curve): Curve => rootMeanSquare(readings.map(pick));
  return {
    fHz: readings[0].fHz,
    thdPct: mean((r) => r.thdPct),
    h2Pct: mean((r) => r.h2Pct),
    h3Pct: mean((r) => r.h3Pct),
    h4Pct: mean((r) => r.h4Pct),
    h5Pct: mean((r) => r.h5Pct),
    floorPct: mean((r) => r.floorPct),
    valid: readings[0].fHz.map((_, i) => readings.every(({ valid }) => valid[i])),
  };
}

export function averageBands(bands: BandLevels[]): BandLevels | null {
  if (bands.length === 0 || !sameGrid(bands.map(({ fHz }) => fHz))) return null;
  return { fHz: bands[0].fHz, levelDb: powerMean(bands.map(({ levelDb }) => levelDb)) };
}

/** One sign where none contradicts it and at least one is sure of it. */
export function commonPolarity(polarities: Polarity[]): Polarity | null {
  if (polarities.length === 0) return null;
  const said = polarities.filter(({ sign }) => sign !== 0);
  if (said.length === 0) return polarities[0];
  if (said.some(({ sign }) => sign !== said[0].sign)) {
    return { sign: 0, confidence: 0, reason: 'the stimuli contradict each other' };
  }
  const best = said.reduce((a, b) => (b.confidence > a.confidence ? b : a));
  return { ...best, confidence: (best.confidence * said.length) / polarities.length };
}

/** Geometric means of the corners, arithmetic of the slopes; null where a stimulus has none. */
export function averageBand(bands: PassBand[]): PassBand | null {
  if (bands.length === 0) return null;
  const mean = (values: (number | null)[], geometric: boolean): number | null => {
    if (values.some((value) => value === null)) return null;
    const numbers = values as number[];
    return geometric
      ? Math.exp(numbers.reduce((sum, v) => sum + Math.log(v), 0) / numbers.length)
      : numbers.reduce((sum, v) => sum + v, 0) / numbers.length;
  };
  return {
    lowHz: mean(
      bands.map((b) => b.lowHz),
      true,
    ),
    lowSlopeDbPerOctave: mean(
      bands.map((b) => b.lowSlopeDbPerOctave),
      false,
    ),
    highHz: mean(
      bands.map((b) => b.highHz),
      true,
    ),
    highSlopeDbPerOctave: mean(
      bands.map((b) => b.highSlopeDbPerOctave),
      false,
    ),
  };
}

/** Whether several stimuli say the same thing: one side, one kind and one band, so that averaging makes one better one. */
export function areRepeats(stimuli: Pick<StimulusReading, 'kind' | 'side' | 'levelDbfs'>[]): boolean {
  return stimuli.every((s) => s.kind === stimuli[0].kind && s.side === stimuli[0].side);
}

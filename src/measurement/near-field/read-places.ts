// All takes of a near-field walk, read place by place.
import type { Polarity } from '../reading.ts';
import { type ChannelFit, channelFit, driverLevelDb, type PlannedBand, plannedLevelDb } from './channel-fit.ts';
import { type DriverKind, driverKind } from './driver-kinds.ts';
import { type OwnBand, ownBand, phaseOf, playableHz, reachOf, shapeOf } from './near-place.ts';
import { nearPolarity } from './near-polarity.ts';
import type { NearTake, OneSide } from './near-take.ts';
import { type PlaceSpectra, type Presence, placeSpectra, presence } from './neighbours.ts';

/** A channel as planned, as far as its sound goes. */
export interface PlannedChannel extends PlannedBand {
  place: string;
  kind?: string | undefined;
}

/** What a take close to one driver says. */
export interface NearPlaceReading {
  /** How far each side stands over a dead driver's place, dB. */
  presence: Record<OneSide, Presence>;
  /** Left sweep over right sweep where the driver stands out most, dB; null where both drown in noise. */
  sideDb: number | null;
  /** The side read for band and level: the louder one. */
  side: OneSide;
  own: OwnBand;
  /** Level in the own band, recorded per played full scale, dB. */
  levelDb: number | null;
  /** By channel: how well its filters through a driver of this kind fit; null where nothing can be fitted. */
  fits: (ChannelFit | null)[];
  /** By channel: presence in what of its band a driver of this kind can play; null where that is nothing. */
  presenceIn: (Record<OneSide, Presence> | null)[];
  /** By channel: how much fainter than its own driver one of this kind may play it, dB, 0 or below; 0 for its own. */
  faintnessDb: number[];
  polarity: Record<OneSide, Polarity>;
}

const unheard: Polarity = { sign: 0, confidence: 0, reason: 'this side does not play here' };
const unclear: Polarity = {
  sign: 0,
  confidence: 0,
  reason: 'neither band nor filters are clear enough to predict its phase',
};
/** What must be seen of the driver itself, and how well its filters must fit, before their phase is believed. */
const LEAST_OWN_OCTAVES = 0.5;
const WORST_FIT = 16;
const LOUD_DB = 9;
/** Neighbours this far under the driver bend its phase too little to matter, power ratio (3 dB). */
const PHASE_RATIO = 1;
/** An own band this wide tells the side, a narrower one only where the driver stands out most. */
const LEAST_RANGE = 1.5;
/** The least presence of a side whose polarity is asked for, dB. */
const HEARD_DB = 7;
/** A fit this much worse than the best one is still preferred where it is the planned channel's. */
const PLANNED_BONUS = 4;
/** Over the audible band and, of them, over half an octave. */
const FAINT_POINTS = 112;
const FAINT_WIDTH = 6;

function mean(values: number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

/**
 * Best part of a channel's band through the driver of a kind that suits it least, dB against full level.
 */
function faintnessDb(channel: PlannedBand, { resonanceHz, upperHz }: DriverKind): number {
  const fHz = Array.from({ length: FAINT_POINTS }, (_, k) => 25 * 640 ** (k / (FAINT_POINTS - 1)));
  const planned = plannedLevelDb(channel, fHz);
  const levels = fHz.map((f, k) => planned[k] + driverLevelDb(f, resonanceHz[1], upperHz[0]));
  let best = -60;
  for (let from = 0; from + FAINT_WIDTH <= levels.length; from++) {
    best = Math.max(best, mean(levels.slice(from, from + FAINT_WIDTH)));
  }
  // A filter's own corner is within a few decibels of full level.
  return Math.min(0, best + 3);
}

function presencesOf(
  spectra: PlaceSpectra,
  channels: readonly PlannedChannel[],
  kind: DriverKind,
): NearPlaceReading['presenceIn'] {
  const range = { low: spectra.fHz[0], high: spectra.fHz[spectra.fHz.length - 1] };
  return channels.map((channel) => {
    const band = playableHz(channel, kind, range);
    if (!band) return null;
    return { left: presence(spectra, 'left', band), right: presence(spectra, 'right', band) };
  });
}

/** The presence in whichever channel's band has most. */
function mostPresent(all: NearPlaceReading['presenceIn'], side: OneSide): Presence {
  const known = all.flatMap((one) => (one ? [one[side]] : []));
  const none: Presence = { levelDb: -60, atMostDb: -60, bandHz: { low: 20, high: 20_000 } };
  const best = known.reduce((a, b) => (b.levelDb > a.levelDb ? b : a), known[0] ?? none);
  return { ...best, atMostDb: Math.max(-60, ...known.map(({ atMostDb }) => atMostDb)) };
}

/** Left over right in a band, dB; null where neither stands out of the noise. */
function leftOverRightDb({ fHz, signal, noise }: PlaceSpectra, band: { low: number; high: number }): number | null {
  const inside = fHz.flatMap((f, k) =>
    f >= band.low && f <= band.high && Math.max(signal.left[k], signal.right[k]) > 0 ? [k] : [],
  );
  if (inside.length === 0) return null;
  const levelDb = (side: OneSide): number =>
    mean(inside.map((k) => 10 * Math.log10(Math.max(signal[side][k], noise[side][k], 1e-20))));
  return levelDb('left') - levelDb('right');
}

/** What of a range lies within 9 dB of the loudest by the fitted filters: further down neighbours turn the phase. */
function loudRange(
  fHz: readonly number[],
  range: { low: number; high: number },
  shapeDb: (fHz: number) => number,
): { low: number; high: number } | null {
  const inside = fHz.filter((f) => f >= range.low && f <= range.high);
  const levels = inside.map(shapeDb);
  const loudest = Math.max(...levels);
  const loud = inside.filter((_, k) => levels[k] > loudest - LOUD_DB);
  return loud.length > 1 ? { low: loud[0], high: loud[loud.length - 1] } : null;
}

function readPlace(
  take: NearTake,
  spectra: PlaceSpectra,
  channels: readonly PlannedChannel[],
  index: number,
): NearPlaceReading {
  const { kind: named, place } = channels[index];
  const kind = driverKind(named ?? place);
  const presenceIn = presencesOf(spectra, channels, kind);
  const heard = { left: mostPresent(presenceIn, 'left'), right: mostPresent(presenceIn, 'right') };
  const side: OneSide = heard.left.levelDb >= heard.right.levelDb ? 'left' : 'right';
  const own = ownBand(spectra, side, reachOf(kind));
  const { rangeHz } = own;
  const fits = channels.map((channel) => channelFit(own.points, channel, kind));
  const costs = fits.map((fit, o) => (fit ? fit.cost - (o === index ? PLANNED_BONUS : 0) : Number.POSITIVE_INFINITY));
  const likeliest = costs.indexOf(Math.min(...costs));
  const fit = fits[likeliest];
  const polarityOf = (asked: OneSide): Polarity => {
    const from = take[asked];
    const range = ownBand(spectra, asked, reachOf(kind), PHASE_RATIO).rangeHz;
    if (!from || !fit || !range || heard[asked].levelDb < HEARD_DB) return unheard;
    if (!rangeHz || Math.log2(rangeHz.high / rangeHz.low) < LEAST_OWN_OCTAVES || fit.cost > WORST_FIT) return unclear;
    const shapeDb = shapeOf(channels[likeliest], fit);
    const ownHz = loudRange(spectra.fHz, range, shapeDb);
    if (!ownHz) return unclear;
    return nearPolarity({
      impulse: from.impulse,
      background: take.background,
      ownHz,
      shapeDb,
      modelPhase: phaseOf(channels[likeliest], fit),
    });
  };
  const inside = own.points.filter(({ kind: told }) => told === 'own').map(({ levelDb }) => levelDb);
  inside.sort((a, b) => a - b);
  return {
    presence: heard,
    sideDb: leftOverRightDb(
      spectra,
      rangeHz && rangeHz.high > LEAST_RANGE * rangeHz.low ? rangeHz : heard[side].bandHz,
    ),
    side,
    own,
    levelDb: inside.length > 0 ? inside[inside.length >> 1] : null,
    fits,
    presenceIn,
    faintnessDb: channels.map((channel, o) => (o === index ? 0 : faintnessDb(channel, kind))),
    polarity: { left: polarityOf('left'), right: polarityOf('right') },
  };
}

/**
 * Reads all takes of a walk together: what one place hears of the others is known from theirs.
 *
 * @param takes     one a channel's place, in the order of `channels`; null where none was made
 * @param channels  all channels of the plan
 * @returns null where there is no usable take
 */
export function readPlaces(
  takes: readonly (NearTake | null)[],
  channels: readonly PlannedChannel[],
): (NearPlaceReading | null)[] {
  const usable = takes.flatMap((take, index) => (take?.usable ? [{ take, index }] : []));
  // A recorder of a lower rate hears less of the top: all are compared as far as each of them goes.
  const points = Math.min(...usable.map(({ take }) => take.fHz.length));
  const made = usable.map(({ take, index }) => ({ take: { ...take, fHz: take.fHz.slice(0, points) }, index }));
  const spectra = placeSpectra(made.map(({ take }) => take));
  const readings: (NearPlaceReading | null)[] = takes.map(() => null);
  made.forEach(({ take, index }, i) => {
    const seen = spectra[i];
    if (seen) readings[index] = readPlace(take, seen, channels, index);
  });
  return readings;
}

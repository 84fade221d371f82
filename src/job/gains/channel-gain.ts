// What a meter should read at an amplifier channel when its gain stands right, and the tone that plays meanwhile.

import { channelLevelDb } from '../../drivers/limits.ts';
import { targetVolts } from '../../electrical/gains/target-volts.ts';
import { testFrequency } from '../../electrical/gains/test-frequency.ts';
import { toneVolts } from '../../electrical/gains/tone-volts.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { Expected } from '../hold-points/evidence-forms.ts';
import { driversLimitV } from '../rules/chain-gains.ts';
import { filtersOf } from '../rules/driver-limits.ts';
import { laneDrive } from '../rules/loads.ts';
import type { Lane } from '../rules/plan-view.ts';

/** What is not known. */
interface Needs {
  needs: string;
}

/** The tone to start with, below full scale: a tenth of full volts, and safe for what is wired already. */
export const gainToneDbfs = -20;

/** A meter of which nothing is known is honest up to here, Hz: an assumption. */
export const meterCornerHz = 1000;

/** How far a reading may lie from its target. */
export const gainToleranceDb = 0.5;

/**
 * With the drivers unplugged an output stands 2 to 8 % above what it gives with them. How much, no plan says of an amplifier:
 * 3 % less is practice, and lies within the tolerance.
 */
const unloadedShare = 0.97;

/** Where music plays, where a crossover leaves it open. */
const musicHz = { low: 20, high: 20_000 };

export interface GainTarget {
  /** RMS at full scale, overlap not counted: the smaller of what the amplifier gives and what its drivers stand. */
  fullV: number;
  amplifierClipV: number;
  limitedBy: 'amplifier' | 'driver';
}

/** The volts that stand for the power wanted at a channel. */
export function gainTarget(lane: Lane): GainTarget | Needs {
  const drive = laneDrive(lane);
  if (drive === undefined) return { needs: 'the power of its amplifier into its load' };
  const limitV = driversLimitV(lane, drive.ohm);
  if (limitV === undefined) return { needs: 'the power that its drivers stand' };
  const amplifierClipV = targetVolts({ watt: drive.watt, ohm: drive.ohm }).rms;
  const limitedBy = limitV < amplifierClipV ? 'driver' : 'amplifier';
  return { fullV: Math.min(limitV, amplifierClipV), amplifierClipV, limitedBy };
}

export interface GainTone {
  fHz: number;
  toneDbfs: number;
  overlapDb: number;
  /** Whether the channel's own filters let it through; else it plays through a full-range setting, driver unplugged. */
  inPassband: boolean;
  /** What crossover and equaliser make of the tone, dB. */
  filterDb: number;
  /** What a meter with that corner reads less. */
  meterErrorPct: number;
}

/** The tone for a channel's band, within what the meter can read. */
export function gainTone(
  channel: PartOf<'channel'> | undefined,
  { toneDbfs = gainToneDbfs, meterHz = meterCornerHz } = {},
): GainTone | Needs {
  if (channel === undefined) return { needs: 'the channel that feeds it' };
  const { highPass, lowPass, overlapDb = 0 } = channel;
  if (highPass === undefined || lowPass === undefined) return { needs: `the crossover of ${channel.id}` };
  const [lowHz, highHz] = [highPass?.fHz ?? musicHz.low, lowPass?.fHz ?? musicHz.high];
  const found = testFrequency({ lowHz, highHz, meterHz });
  if (!found.ok) return { needs: `a band of ${channel.id} that something passes` };
  const { freqHz, inPassband, meterErrorPct } = found.value;
  const fHz = freqHz >= 10 ? Math.round(freqHz) : freqHz;
  const filters = filtersOf(channel);
  if (inPassband && filters === undefined) return { needs: `what the crossover of ${channel.id} does at ${fHz} Hz` };
  const filterDb = inPassband ? channelLevelDb({ filters: filters ?? [], eq: channel.eq ?? [] }, fHz) : 0;
  return { fHz, toneDbfs, overlapDb, inPassband, filterDb, meterErrorPct };
}

export interface GainReading {
  /** What the meter should show. */
  readV: number;
  /** What to set with the drivers unplugged: 3 % less by practice, whatever the amplifier. */
  unloadedV: number;
  allowed: Expected;
}

/** Volts to read for a tone, and the range that closes the hold point. */
export function gainReading({ fullV }: GainTarget, tone: GainTone): GainReading | Needs {
  const { toneDbfs, overlapDb, filterDb } = tone;
  const found = toneVolts({ fullVolts: fullV, toneDbfs, overlapDb, filterDb });
  if (!found.ok) return { needs: `a tone at ${-overlapDb} dB below full scale or lower` };
  const { readVolts: readV } = found.value;
  const share = 10 ** (gainToleranceDb / 20);
  return {
    readV,
    unloadedV: readV * unloadedShare,
    allowed: { low: readV / share, high: readV * share, target: readV, unit: 'V' },
  };
}

export interface ChannelGain {
  target: GainTarget | Needs;
  tone: GainTone | Needs;
  reading: GainReading | Needs;
}

/** All three for one amplifier channel. */
export function channelGain(lane: Lane, options: { toneDbfs?: number; meterHz?: number } = {}): ChannelGain {
  const target = gainTarget(lane);
  const tone = gainTone(lane.channels.at(0), options);
  const reading = 'needs' in target ? target : 'needs' in tone ? tone : gainReading(target, tone);
  return { target, tone, reading };
}

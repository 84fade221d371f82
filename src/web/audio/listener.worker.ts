// Listens beside the page: measures the level and the bands of what the microphone gives, and keeps it piece by piece.

import { type RunningSpectrum, runningSpectrum } from '../../signals/running-spectrum.ts';
import { encodeSamples } from '../../signals/wav/encode-samples.ts';
import { changeKeptTake, type KeptTake, keepPiece } from '../keep/kept-take.ts';
import type { CapturedBlock } from './capture-worklet.ts';
import { type LevelMeter, levelMeter } from './level-meter.ts';
import type { ListenerReport, ListenerRequest, SpectrumWish } from './listener-messages.ts';
import { levelSpread, type Spread } from './spread.ts';

const scope = self as unknown as {
  postMessage(report: ListenerReport, transfer?: Transferable[]): void;
  onmessage: ((event: MessageEvent<ListenerRequest>) => void) | null;
};
const tell = (report: ListenerReport): void => scope.postMessage(report);

/** A piece of about this length is written at once: what a crash can cost. */
const pieceS = 0.5;
/** Behind the clock by more than this, s, the computer slept. */
const sleptS = 1.5;
const bandsFloorDb = -140;

interface Bands {
  moment: RunningSpectrum;
  average: RunningSpectrum;
  spread: Spread;
  fHz: Float32Array;
  nominalHz: Float32Array;
  levels: Float64Array;
  seconds: number;
}

let rateHz = 48_000;
let meter: LevelMeter = levelMeter(rateHz);
let frames = 0;
let startedMs = 0;
let bands: Bands | null = null;

let take: KeptTake | null = null;
let keptId: string | null = null;
let takeFrames = 0;
let pending: Uint8Array[] = [];
let pendingFrames = 0;
let writing: Promise<void> = Promise.resolve();
let broken: string | null = null;

function bandsFor({ fraction, fromHz, toHz }: SpectrumWish): Bands {
  const setup = { rateHz, fraction, fromHz, toHz: Math.min(toHz, 0.44 * rateHz) };
  const moment = runningSpectrum({ ...setup, average: 0.125 });
  return {
    moment,
    average: runningSpectrum({ ...setup, average: 'linear' }),
    spread: levelSpread(moment.bands.length),
    fHz: Float32Array.from(moment.bands, ({ centreHz }) => centreHz),
    nominalHz: Float32Array.from(moment.bands, ({ nominalHz }) => nominalHz),
    levels: new Float64Array(moment.bands.length),
    seconds: 0,
  };
}

function measureBands(state: Bands, samples: Float32Array): void {
  state.seconds += samples.length / rateHz;
  const moved = state.moment.feed(samples);
  state.average.feed(samples);
  if (!moved) return;
  state.moment.levelsDbInto(state.levels, bandsFloorDb);
  // Before every band has a window there is nothing to spread.
  if (state.moment.windows.every((count) => count > 0)) state.spread.feed(state.levels);
  const momentDb = Float32Array.from(state.levels);
  state.average.levelsDbInto(state.levels, bandsFloorDb);
  const averageDb = Float32Array.from(state.levels);
  const spreadDb = new Float32Array(state.fHz.length);
  state.spread.into(spreadDb);
  const { fHz, nominalHz, seconds } = state;
  tell({ say: 'bands', bands: { fHz, nominalHz, momentDb, averageDb, spreadDb, seconds } });
}

function trouble(kind: 'gap' | 'slept' | 'disk-full' | 'not-kept', message: string): void {
  if (broken === null) broken = message;
  tell({ say: 'trouble', trouble: kind, atS: takeFrames / rateHz, message });
}

/** Writes what is pending, after what is being written already. */
function writePending(): void {
  if (pendingFrames === 0) return;
  const pieces = pending;
  const pieceFrames = pendingFrames;
  pending = [];
  pendingFrames = 0;
  writing = writing.then(async () => {
    if (take === null) return;
    const piece = new Uint8Array(pieces.reduce((sum, { byteLength }) => sum + byteLength, 0));
    let at = 0;
    for (const part of pieces) {
      piece.set(part, at);
      at += part.byteLength;
    }
    try {
      take = await keepPiece(take, piece, pieceFrames);
      tell({ say: 'kept', take });
    } catch (error) {
      const full = error instanceof DOMException && error.name === 'QuotaExceededError';
      trouble(
        full ? 'disk-full' : 'not-kept',
        full
          ? 'The disk has no more room for this browser. What was recorded before is kept.'
          : `This browser could not keep the sound: ${error instanceof Error ? error.message : String(error)}`,
      );
      // Nothing after a hole: the take ends with its last whole piece.
      take = null;
    }
  });
}

function keepBlock(channels: Float32Array[]): void {
  if (take === null || take.sound.kind !== 'captured') return;
  if (channels.length !== take.sound.channels) {
    trouble('gap', 'The microphone changed its channels.');
    return;
  }
  const doubles = channels.map((samples) =>
    Float64Array.from(samples, (sample) => (Number.isFinite(sample) ? sample : 0)),
  );
  pending.push(encodeSamples(doubles, takeFrames, { format: '24' }));
  takeFrames += channels[0].length;
  pendingFrames += channels[0].length;
  if (pendingFrames >= pieceS * rateHz) writePending();
}

function checkClock(): void {
  const behindS = (performance.now() - startedMs) / 1000 - frames / rateHz;
  if (take === null || behindS < sleptS) return;
  trouble('slept', 'The computer slept or the browser held the page up, and sound was lost.');
  startedMs = performance.now() - (frames / rateHz) * 1000;
}

function heard({ channels, missingFrames }: CapturedBlock): void {
  if (startedMs === 0) startedMs = performance.now();
  const level = meter.feed(channels);
  frames += channels[0].length;
  if (missingFrames > 0 && take !== null) {
    trouble('gap', `The browser lost ${Math.round((missingFrames / rateHz) * 1000)} ms of sound.`);
  }
  checkClock();
  keepBlock(channels);
  if (bands) measureBands(bands, channels[level.input]);
  tell({ say: 'level', seconds: frames / rateHz, channels: channels.length, level });
}

async function ended(): Promise<void> {
  writePending();
  await writing;
  const id = keptId;
  take = null;
  keptId = null;
  if (id === null) {
    tell({ say: 'ended', take: null });
    return;
  }
  const change = { state: 'waiting' as const, ...(broken === null ? {} : { broken }) };
  // On a full disk even this may fail; the page then finds the take as one that was left behind.
  const whole = await changeKeptTake(id, change).catch(() => undefined);
  tell({ say: 'ended', take: whole ?? null });
}

scope.onmessage = ({ data }) => {
  if (data.ask === 'keep') {
    take = data.take;
    keptId = data.take.id;
    takeFrames = 0;
    broken = null;
    return;
  }
  if (data.ask === 'average') {
    if (!bands) return;
    bands.average.reset();
    bands.spread = levelSpread(bands.fHz.length);
    bands.seconds = 0;
    return;
  }
  rateHz = data.rateHz;
  meter = levelMeter(rateHz);
  bands = data.spectrum === null ? null : bandsFor(data.spectrum);
  data.port.onmessage = ({ data: block }: MessageEvent<CapturedBlock | 'end'>) => {
    if (block === 'end') void ended();
    else heard(block);
  };
};

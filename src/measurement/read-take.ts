// Reads one take: first what the recording is worth, then what the car did.
import { assertRange } from '../base/assert.ts';
import type { Recording } from '../signals/recording.ts';
import type { NoiseSegment, Side, SweepSegment, TrackDescription } from '../signals/track.ts';
import { type Anchor, anchorOf } from './anchor.ts';
import { chosenChannel } from './channel-choice.ts';
import { checkedRecording } from './checks/all-checks.ts';
import { recordedBandHz } from './checks/band-limit.ts';
import { foreignFinding, type HeardSweep } from './checks/foreign.ts';
import { lowSnr, pathLikeness, sideMixed } from './checks/of-reading.ts';
import { unlikeRepeats } from './checks/repeats.ts';
import type { Finding, TakeContext } from './checks/take-context.ts';
import { takeContext } from './checks/take-context-of.ts';
import { withDriftFromRepeats } from './drift-from-repeats.ts';
import { foreignDensityAt, foreignSound, type JudgedFrame } from './foreign-sound/foreign-sound.ts';
import { raised } from './foreign-sound/steady-background.ts';
import { impulseAtRate } from './impulse-at-rate.ts';
import { levelCorrectionDb } from './level-correction.ts';
import { type Located, locateTrack } from './locate-track.ts';
import { againstReference, referenceReading } from './loop-back.ts';
import { type NoiseDensity, noiseDensity, type Stretch } from './noise-density.ts';
import { noiseReading } from './noise-reading.ts';
import { problemFrom } from './permissions.ts';
import type { ProblemCode } from './problems.ts';
import type { ImpulseResponse, ReadControl, Reading, ReadOptions } from './reading.ts';
import { assembled, type TakeResults } from './reading-assembly.ts';
import { sweepImpulse } from './sweep-impulse.ts';
import { type SweepReading, sweepReading } from './sweep-reading.ts';
import { DECAY_S, tailOf } from './timeline.ts';
import { toneReading } from './tone-reading.ts';
import { verdictOf } from './verdict.ts';

/** Thrown when the person no longer wants the answer. */
export class ReadingCancelled extends Error {
  constructor() {
    super('the reading was cancelled');
    this.name = 'ReadingCancelled';
  }
}

/** Differences below this are the chance of a short stretch, dB. */
const LOUDER_DB = 3;
const SEARCH_S = { from: -0.012, to: 0.012 };
/** A driver that ends this far under the markers' band is told from their driver by frequency alone. */
const SPLIT_SHARE = 0.6;
/** What frequency split adds to the uncertainty of an arrival, s. */
const SPLIT_SIGMA_S = 0.00007;

/**
 * What one recording of one track says.
 *
 * Pure: the same recording, track and options always give the same answer, in node, in a worker and in a browser.
 *
 * @param recording  any rate from 4 to 768 kHz, any number of inputs; read on demand, so length costs little memory
 * @param track      the description of what was playing
 * @returns the reading, and the impulse response behind its first sweep where it may be shown
 * @throws ReadingCancelled when `control.cancelled` says so
 */
export function readTake(
  recording: Recording,
  track: TrackDescription,
  options: ReadOptions = {},
  control: ReadControl = {},
): { reading: Reading; impulse: ImpulseResponse | null } {
  if (options.input !== undefined) assertRange('input', options.input, 0, recording.channels - 1);
  const step = (share: number, doing: string): void => {
    if (control.cancelled?.()) throw new ReadingCancelled();
    control.onProgress?.(share, doing);
  };
  step(0, 'listening through');
  const { located: found, survey } = chosenChannel(recording, track, options.input, (share) =>
    step(0.05 + 0.4 * share, 'looking for the track'),
  );
  const comparing = (share: number): void => step(0.45 + 0.05 * share, 'comparing the clocks');
  const line = options.reference ? referenceLine(options.reference, track, found) : null;
  const located = line ?? (found.how === 'sweeps' ? withDriftFromRepeats(recording, found, track, comparing) : found);
  const context = takeContext(recording, track, { located, survey });
  step(0.5, 'judging the recording');
  const findings = checkedRecording(context);
  if (located.how === 'nothing' && !findings.some(({ code }) => code === 'silent' || code === 'wrong-track')) {
    findings.push(notFound(track));
  }
  const results: TakeResults = { sweeps: [], noises: [], tones: [], leftMinusRight: null, startS: null, impulse: null };
  if (!findings.some((finding) => problemFrom(finding, track.kind).severity === 'stop')) {
    readStimuli(context, options, findings, results, (share) => step(0.5 + 0.5 * share, 'reading the car'));
  }
  const reading = assembled(context, findings, results, options);
  reading.quality.verdict = verdictOf(reading.quality.problems, results.sweeps[0]?.reading.bandSnrDb ?? null);
  step(1, 'done');
  return { reading, impulse: reading.response && results.impulse ? results.impulse : null };
}

/** Sound after a sweep that may still be the car, s. */
const LONGEST_TAIL_S = DECAY_S + 0.15;
/** Longest way of the sound behind its electrical reference, s. */
const REFERENCE_SEARCH_S = { from: -0.002, to: 0.04 };

/** The time line of the electrical reference, laid over the take's own channel; null where it holds no track. */
function referenceLine(
  { recording, input }: NonNullable<ReadOptions['reference']>,
  track: TrackDescription,
  found: Located,
): Located | null {
  const line = locateTrack(recording, input, track);
  if (line.how === 'nothing' || found.how === 'nothing') return null;
  const steady = line.how === 'sweeps' ? withDriftFromRepeats(recording, line, track) : line;
  return { ...steady, channel: found.channel };
}

function notFound(track: TrackDescription): Finding {
  return {
    code: 'low-snr',
    message: `Nothing of the ${track.kind} track stands out of what was recorded.`,
    mend: 'Check that this is the right recording, that the track played, and that it was loud enough.',
    severity: 'stop',
  };
}

/** Background before the track if there is enough of it, else all quiet stretches. */
function backgroundOf({ recording, channel, quiet, located, noiseBefore }: TakeContext): TakeContext['noiseBefore'] {
  if (noiseBefore && noiseBefore.durationS > 0.3) return noiseBefore;
  const all = [quiet.before, ...quiet.between, quiet.after].filter((stretch): stretch is Stretch => stretch !== null);
  return noiseDensity(recording, channel, all, located.effectiveRateHz);
}

/** A background that is louder while the track plays is taken at that loudness. */
function louder(noise: NoiseDensity | null, duringDb: number | null): NoiseDensity | null {
  if (!noise || duringDb === null || duringDb < LOUDER_DB) return noise;
  const factor = 10 ** (duringDb / 10);
  return {
    ...noise,
    density: noise.density.map((value) => value * factor),
    sum: noise.sum.map((value) => value * factor),
  };
}

function readStimuli(
  context: TakeContext,
  options: ReadOptions,
  findings: Finding[],
  results: TakeResults,
  onProgress: (share: number) => void,
): void {
  const { recording, channel, track, located, events } = context;
  const rateHz = located.effectiveRateHz;
  const foreign = foreignSound(recording, channel, events, context.quiet, rateHz);
  const noise = louder(backgroundOf(context) ?? foreign.background, context.noiseDuringDb);
  const recorded = recordedBandHz(context);
  const sweeps = events.filter(({ segment }) => segment.kind === 'sweep');
  const anchors = new Map<Side, Anchor | null>();
  const anchorFor = (side: Side): Anchor | null => {
    if (!anchors.has(side)) anchors.set(side, located.how === 'markers' ? anchorOf(recording, located, side) : null);
    return anchors.get(side) ?? null;
  };
  const firstMarker = located.match.matched[0]?.marker.side;
  const first = firstMarker ? anchorFor(firstMarker) : null;
  if (first) results.startS = (located.offset + first.arrival.arrivalS * rateHz) / recording.rateHz;
  const heardSweeps: HeardSweep[] = [];
  let likeness: { value: number; side: string; anchorSide: string } | null = null;
  sweeps.forEach((event, i) => {
    const segment = event.segment as SweepSegment;
    const tailS = tailOf(event, events, recording.frames, rateHz, LONGEST_TAIL_S);
    const impulse = sweepImpulse(recording, channel, segment, event.start, rateHz, track.rateHz, tailS);
    const loopBack = options.reference ? referenceReading(options.reference, context, event, tailS, noise) : null;
    const { anchor, separate } = loopBack ? { anchor: null, separate: false } : anchorOfSweep(segment.side, anchorFor);
    const frames = foreign.sweeps[i];
    const noiseInSweep = withForeign(noise, frames, segment);
    const heard = sweepReading({
      segment,
      impulse,
      noise: noiseInSweep,
      anchor,
      ...(loopBack ? { referenceS: loopBack.originS } : {}),
      expectArrivalS: options.expectArrivalS ?? (loopBack ? REFERENCE_SEARCH_S : SEARCH_S),
      smoothOctaves: options.smoothOctaves ?? 1 / 12,
      bandHz: options.bandHz ?? null,
      correctionDb: levelCorrectionDb(options, segment.levelDbfs),
      recordedHz: recorded,
    });
    const reading = loopBack ? againstReference(heard, loopBack) : heard;
    if (anchor && !separate) splitByFrequency(reading, anchor);
    if (anchor && separate) {
      const value = pathLikeness(impulse, anchor);
      if (!likeness || value > likeness.value) likeness = { value, side: segment.side, anchorSide: anchor.side };
    }
    if (i === 0) {
      results.impulse = impulseAtRate(impulse, reading.originS, track.rateHz);
      const heardS = loopBack ? loopBack.originS : located.how === 'sweeps' ? reading.originS : null;
      if (heardS !== null) results.startS = (located.offset + heardS * rateHz) / recording.rateHz;
    }
    const moved = findings.find(({ code }) => code === 'agc')?.values?.changeDb ?? 0;
    if (Math.abs(moved) > MOST_TILT_DB) tilted(reading);
    heardSweeps.push({ segment, reading, frames, noise: noiseInSweep });
    results.sweeps.push({ segment, startS: event.start / recording.rateHz, reading });
    onProgress((i + 1) / (events.length + 1));
  });
  for (const event of events) {
    if (event.segment.kind === 'tone') results.tones.push(toneReading(recording, channel, event, rateHz));
    if (event.segment.kind !== 'noise') continue;
    const segment = event.segment as NoiseSegment;
    const correction = levelCorrectionDb(options, segment.levelDbfs);
    const bands = noiseReading(recording, channel, event, located.slope, track.rateHz, noise, correction);
    if (bands) results.noises.push({ segment, startS: event.start / recording.rateHz, bands });
  }
  results.leftMinusRight = track.kind === 'pair' ? leftMinusRight(results, anchorFor) : null;
  const drowned = sweeps.length > 0 ? lowSnr(results.sweeps.map(({ reading }) => reading)) : lowAnchors(anchors);
  if (drowned) findings.push(drowned);
  // Rising levels repeat their first step to show what heat does to the driver: that is no fault of the recording.
  const unlike = drowned || track.kind === 'steps' ? null : unlikeRepeats(results.sweeps, located.how === 'markers');
  if (unlike) findings.push(unlike);
  const explained = drowned || unlike || findings.some(({ code }) => EXPLAINS_FOREIGN.includes(code));
  const spoilt = explained ? null : foreignFinding(heardSweeps, recording.rateHz);
  if (spoilt) replaceNote(findings, spoilt);
  if (likeness && !drowned) {
    const { value, side, anchorSide } = likeness as { value: number; side: string; anchorSide: string };
    const mixed = sideMixed(value, side, anchorSide);
    if (mixed) findings.push(mixed);
  }
}

/** Says the same more strictly than a note may have said it already. */
function replaceNote(findings: Finding[], stricter: Finding): void {
  const at = findings.findIndex(({ code, severity }) => code === stricter.code && severity !== 'limit');
  findings.splice(at < 0 ? findings.length : at, at < 0 ? 0 : 1, stricter);
}

/** Problems that themselves put sound where the sweep left none. */
const EXPLAINS_FOREIGN: readonly ProblemCode[] = ['clipped-digital', 'clipped-analogue', 'agc', 'gated', 'gap'];

/** The noise that one sweep's reading must reckon with. */
function withForeign(
  noise: NoiseDensity | null,
  frames: readonly JudgedFrame[],
  segment: SweepSegment,
): NoiseDensity | null {
  if (!noise || !frames.some(({ density }) => (density ?? 0) > 0)) return noise;
  return raised(noise, (fHz) => foreignDensityAt(frames, segment, fHz));
}

/** A gain that moves by this much tilts the magnitude, and with it the phase that is expected of it. */
const MOST_TILT_DB = 2;

function tilted(reading: SweepReading): void {
  reading.polarity = {
    sign: 0,
    confidence: 0,
    reason: 'the recording gain moved and tilts what the sign is read from',
  };
  const tiltS = 0.1 / (reading.band.highHz ?? reading.measuredHz.high);
  if (reading.arrivalSigmaS !== null) reading.arrivalSigmaS = Math.hypot(reading.arrivalSigmaS, tiltS);
}

/** The driver whose markers time this sweep; `separate` when they come from the other side alone. */
function anchorOfSweep(
  side: Side,
  anchorFor: (side: Side) => Anchor | null,
): { anchor: Anchor | null; separate: boolean } {
  if (side !== 'both') {
    const opposite = anchorFor(side === 'left' ? 'right' : 'left');
    if (opposite) return { anchor: opposite, separate: true };
  }
  return { anchor: anchorFor(side) ?? anchorFor('both') ?? anchorFor('right') ?? anchorFor('left'), separate: false };
}

/** Markers and sweep share their sides: only a driver that ends well under the markers' band has a time of its own. */
function splitByFrequency(reading: SweepReading, anchor: Anchor): void {
  const { highHz } = reading.band;
  if (reading.arrivalS === null) return;
  if (highHz !== null && highHz < SPLIT_SHARE * anchor.bandHz.low) {
    reading.arrivalSigmaS = Math.hypot(reading.arrivalSigmaS ?? 0, SPLIT_SIGMA_S);
    return;
  }
  reading.arrivalS = null;
  reading.arrivalSigmaS = null;
  reading.noArrival = {
    code: 'no-reference',
    message: 'the markers play through the same drivers as the sweep, so there is no separate time reference',
  };
}

function leftMinusRight(results: TakeResults, anchorFor: (side: Side) => Anchor | null): TakeResults['leftMinusRight'] {
  const of = (side: Side): SweepReading | undefined =>
    results.sweeps.find(({ segment }) => segment.side === side)?.reading;
  const [left, right] = [of('left'), of('right')];
  if (left && right && left.polarity.sign !== 0 && right.polarity.sign !== 0) {
    const sigmaS = 0.02 / (left.band.highHz ?? left.measuredHz.high);
    return { valueS: left.originS - right.originS, sigmaS };
  }
  const [leftAnchor, rightAnchor] = [anchorFor('left'), anchorFor('right')];
  if (!leftAnchor || !rightAnchor) return null;
  const one = leftAnchor.arrival;
  const other = rightAnchor.arrival;
  // Twenty dB through the direct sound's window keep the right period of the carrier.
  const snrDb = Math.min(leftAnchor.snrDb, rightAnchor.snrDb);
  if (snrDb < 20 || one.coherence < 0.45 || other.coherence < 0.45) return null;
  const noiseS = 1 / (2 * Math.PI * leftAnchor.bandHz.high * Math.sqrt(10 ** (snrDb / 10)));
  return { valueS: one.arrivalS - other.arrivalS, sigmaS: Math.hypot(0.000003, noiseS / 3) };
}

const LEAST_ANCHOR_SNR_DB = 3;

/** A track of markers alone: they themselves must stand out. */
function lowAnchors(anchors: Map<Side, Anchor | null>): Finding | null {
  const heard = [...anchors.values()].filter((anchor): anchor is Anchor => anchor !== null);
  if (heard.length === 0 || heard.every(({ snrDb }) => snrDb >= LEAST_ANCHOR_SNR_DB)) return null;
  const snrDb = Math.min(...heard.map((anchor) => anchor.snrDb));
  return {
    code: 'low-snr',
    message: `The markers stand only ${snrDb.toFixed(0)} dB over the background.`,
    mend: 'Turn the playback up in small steps, switch fans and engine off, and record again.',
    values: { snrDb },
    severity: 'limit',
  };
}

// The parts of a reading put together: only what the recording's problems allow is shown, the rest is withheld by name.
import type { NoiseSegment, SweepSegment } from '../signals/track.ts';
import {
  areRepeats,
  averageBand,
  averageBands,
  averageDistortion,
  averageResponse,
  commonPolarity,
} from './average-of-stimuli.ts';
import type { Finding, TakeContext } from './checks/take-context.ts';
import { pairSign } from './pair-sign.ts';
import { forbids, problemFrom, type Result } from './permissions.ts';
import { agreedPoints, sameSweep } from './plays-agree.ts';
import type {
  BandLevels,
  ImpulseResponse,
  Reading,
  ReadOptions,
  StimulusReading,
  ToneReading,
  Withheld,
} from './reading.ts';
import type { SweepReading } from './sweep-reading.ts';

export interface TakeResults {
  sweeps: { segment: SweepSegment; startS: number; reading: SweepReading }[];
  noises: { segment: NoiseSegment; startS: number; bands: BandLevels }[];
  tones: ToneReading[];
  leftMinusRight: { valueS: number; sigmaS: number } | null;
  startS: number | null;
  impulse: ImpulseResponse | null;
}

const rank = { stop: 0, limit: 1, note: 2 } as const;

export function assembled(
  context: TakeContext,
  findings: Finding[],
  results: TakeResults,
  options: ReadOptions,
): Reading {
  const { recording, survey, located, track } = context;
  const problems = findings
    .map((finding) => problemFrom(finding, track.kind))
    .sort((a, b) => rank[a.severity] - rank[b.severity]);
  const usable = !problems.some(({ severity }) => severity === 'stop');
  const withheld: Withheld[] = [];
  const reading: Reading = {
    schema: 'kickpanel.read/1',
    reference: options.fullScaleSplDb === undefined ? 'full-scale' : 'spl',
    quality: {
      usable,
      verdict: '',
      peakDbfs: survey.peak > 0 ? 20 * Math.log10(survey.peak) : null,
      input: located.channel + 1,
      inputs: recording.channels,
      rateHz: recording.rateHz,
      bits: recording.bits,
      durationS: recording.frames / recording.rateHz,
      problems,
    },
    withheld,
  };
  const { quality } = reading;
  const untimed = findings.find(({ code }) => code === 'gap' || code === 'wrong-track');
  const timed = untimed === undefined;
  if (located.driftPpm !== null && timed) {
    quality.driftPpm = located.driftPpm;
    if (located.driftSigmaPpm !== null) quality.driftSigmaPpm = located.driftSigmaPpm;
  } else {
    withheld.push({
      field: 'driftPpm',
      code: untimed?.code ?? 'no-reference',
      message: untimed?.message ?? 'nothing in this take repeats, so the two clocks cannot be compared',
    });
  }
  if (results.startS !== null) quality.startS = results.startS;
  if (results.sweeps.length > 0) quality.snr = results.sweeps[0].reading.snr;
  const stop = problems.find(({ severity }) => severity === 'stop');
  if (stop) {
    for (const field of ['response', 'arrivalS', 'polarity', 'band', 'distortion', 'bands']) {
      withheld.push({ field, code: stop.code, message: stop.message });
    }
    return reading;
  }
  const allowed = (result: Result, ...fields: string[]): boolean => {
    const finding = forbids(findings, result);
    if (finding) for (const field of fields) withheld.push({ field, code: finding.code, message: finding.message });
    return finding === null;
  };
  const may = {
    response: allowed('response', 'response', 'band'),
    arrival: allowed('arrival', 'arrivalS'),
    polarity: allowed('polarity', 'polarity'),
    distortion: allowed('distortion', 'distortion'),
    level: allowed('level', 'bands'),
  };
  const stimuli: StimulusReading[] = [
    ...results.sweeps.map((sweep) => sweepStimulus(sweep, agreedIn(results.sweeps, sweep), may)),
    ...results.noises.map(({ segment, startS, bands }) => ({
      kind: 'noise' as const,
      side: segment.side,
      levelDbfs: segment.levelDbfs,
      startS,
      ...(segment.relation === undefined ? {} : { relation: segment.relation }),
      ...(may.level ? { bands } : {}),
    })),
  ].sort((a, b) => a.startS - b.startS);
  summarise(reading, stimuli, results, may);
  if (results.tones.length > 0 && may.level) reading.tones = results.tones;
  const pair = may.level ? pairSign(results.noises) : null;
  if (pair) reading.pairSign = pair;
  if (results.leftMinusRight && may.arrival) {
    reading.leftMinusRightS = results.leftMinusRight.valueS;
    reading.leftMinusRightSigmaS = results.leftMinusRight.sigmaS;
  } else if (track.kind === 'pair' && may.arrival) {
    withheld.push({
      field: 'leftMinusRightS',
      code: 'no-reference',
      message: 'the two sides were not both heard clearly enough to be timed',
    });
  }
  return reading;
}

type May = Record<Result, boolean>;

/** Which points of a sweep's response its other plays agree to. */
function agreedIn(sweeps: TakeResults['sweeps'], { segment }: TakeResults['sweeps'][number]): boolean[] {
  return agreedPoints(sweeps.filter((other) => sameSweep(segment, other.segment)).map((play) => play.reading.response));
}

function sweepStimulus(
  { segment, startS, reading }: TakeResults['sweeps'][number],
  agreed: boolean[],
  may: May,
): StimulusReading {
  const stimulus: StimulusReading = { kind: 'sweep', side: segment.side, levelDbfs: segment.levelDbfs, startS };
  if (may.response) {
    const { response } = reading;
    stimulus.response = { ...response, valid: response.valid.map((valid, i) => valid && agreed[i]) };
    stimulus.band = reading.band;
  }
  if (may.arrival && reading.arrivalS !== null && reading.arrivalSigmaS !== null) {
    stimulus.arrivalS = reading.arrivalS;
    stimulus.arrivalSigmaS = reading.arrivalSigmaS;
  }
  if (may.polarity) stimulus.polarity = reading.polarity;
  if (may.distortion) stimulus.distortion = reading.distortion;
  if (may.level) stimulus.bands = reading.bands;
  return stimulus;
}

/** The average of all stimuli at the top level, each part where averaging it means something. */
function summarise(reading: Reading, stimuli: StimulusReading[], results: TakeResults, may: May): void {
  const { withheld } = reading;
  const sweeps = stimuli.filter(({ kind }) => kind === 'sweep');
  const repeats = sweeps.length > 0 && areRepeats(sweeps);
  const differ = (field: string, what: string): void => {
    withheld.push({ field, code: 'stimuli-differ', message: `${what}; see each stimulus` });
  };
  if (sweeps.length > 0) {
    const response = averageResponse(
      sweeps.flatMap((s) => s.response ?? []),
      repeats,
    );
    if (response) reading.response = response;
    else if (may.response) differ('response', 'the sweeps cover different bands');
    const band = averageBand(sweeps.flatMap((s) => s.band ?? []));
    if (band && repeats) reading.band = band;
    else if (band) differ('band', 'the sweeps played on different sides');
    const sameLevel = sweeps.every(({ levelDbfs }) => levelDbfs === sweeps[0].levelDbfs);
    const distortion = sameLevel ? averageDistortion(sweeps.flatMap((s) => s.distortion ?? [])) : null;
    if (distortion) reading.distortion = distortion;
    else if (may.distortion) differ('distortion', sameLevel ? 'the sweeps cover different bands' : 'the levels differ');
    if (repeats) {
      const polarity = commonPolarity(sweeps.flatMap((s) => s.polarity ?? []));
      if (polarity) reading.polarity = polarity;
      const timed = sweeps.filter((s) => s.arrivalS !== undefined);
      if (timed.length > 0) {
        reading.arrivalS = timed.reduce((sum, s) => sum + (s.arrivalS ?? 0), 0) / timed.length;
        reading.arrivalSigmaS = Math.max(...timed.map((s) => s.arrivalSigmaS ?? 0));
      }
    } else {
      differ('polarity', 'the sweeps played on different sides');
    }
    const reason = results.sweeps.find(({ reading: r }) => r.noArrival)?.reading.noArrival;
    if (may.arrival && reading.arrivalS === undefined) {
      withheld.push({ field: 'arrivalS', ...(reason ?? { code: 'stimuli-differ', message: 'see each stimulus' }) });
    }
  }
  // Noise that is opposite between the sides adds up otherwise: the first relation alone is averaged.
  const relation = stimuli.find((s) => s.relation !== undefined)?.relation;
  const bands = averageBands(stimuli.flatMap((s) => ((s.relation ?? relation) === relation ? (s.bands ?? []) : [])));
  if (bands) reading.bands = bands;
  else if (may.level && stimuli.length > 1) differ('bands', 'the stimuli cover different bands');
  if (stimuli.length > 1) reading.stimuli = stimuli;
}

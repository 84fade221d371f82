// The signal's way: source, processor, amplifier, and what each channel is set to.
import { z } from 'zod';
import { amperes, decibels, hertz, idList, name, note, ohms, partId, range, terminal, volts, watts } from './fields.ts';

export const signalKinds = ['line', 'balanced', 'speaker', 'digital'] as const;
export const filterFamilies = ['butterworth', 'linkwitz-riley', 'bessel'] as const;

/** One crossover edge; the order times 6 is its slope in decibels per octave. */
export const filter = z.strictObject({
  family: z.enum(filterFamilies),
  order: z.number().int().min(1).max(8),
  fHz: hertz,
});

/** One band of a channel's equaliser; q as in the cookbook of biquads. */
const equaliserBand = z.strictObject({
  type: z.enum(['peaking', 'low-shelf', 'high-shelf']),
  fHz: hertz,
  gainDb: range(-40, 40),
  q: range(0.05, 50),
});

/** Where the signal comes from. */
export const source = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  outputs: z
    .array(z.strictObject({ id: partId, name: name.exactOptional() }))
    .max(64)
    .exactOptional(),
  kind: z.enum(signalKinds).exactOptional(),
  /** Loudest clean RMS voltage at its outputs. */
  cleanV: volts.exactOptional(),
  /** Both output leads carry signal and none of them is ground. */
  bridgedOutput: z.boolean().exactOptional(),
  /** What the factory does to the signal and is not undone. */
  factoryProcessing: z.array(z.enum(['equalizer', 'delay', 'phase', 'loudness', 'compression'])).exactOptional(),
  factoryProcessingCorrected: z.boolean().exactOptional(),
  /** Whether it came with the car, with its chimes and warnings; where nobody said, one that adds processing did. */
  factory: z.boolean().exactOptional(),
  /** Whether hands-free calls go through it; where nobody said, those of a factory source do. */
  calls: z.boolean().exactOptional(),
  /** Most current that its turn-on output gives. */
  turnOnLimitA: amperes.exactOptional(),
  /** Ids of the devices that it turns on. */
  turnsOn: idList.exactOptional(),
  turnOnRelay: z.boolean().exactOptional(),
  /** Volume steps planned as reference, and the last clean one found. */
  referenceStep: range(0, 1000).exactOptional(),
  cleanStep: range(0, 1000).exactOptional(),
  groundAt: name.exactOptional(),
  supplyV: z.union([z.literal(12), z.literal(24)]).exactOptional(),
  note: note.exactOptional(),
});

/** What can be dialled in on each output. */
const dials = z.strictObject({
  crossoverFamilies: z.array(z.enum(filterFamilies)).exactOptional(),
  crossoverOrders: z.array(z.number().int().min(1).max(8)).exactOptional(),
  crossoverStepHz: range(0.001, 1000).exactOptional(),
  eqBands: z.number().int().min(0).max(256).exactOptional(),
  eqGainStepDb: range(0.01, 12).exactOptional(),
  eqGainMinDb: decibels.exactOptional(),
  eqGainMaxDb: decibels.exactOptional(),
  eqQStep: range(0.001, 10).exactOptional(),
  eqQMin: range(0.01, 100).exactOptional(),
  eqQMax: range(0.01, 100).exactOptional(),
  eqFrequencies: z.union([z.literal('any'), z.array(hertz).max(1000)]).exactOptional(),
  delayStepMs: range(0.0001, 10).exactOptional(),
  delayMaxMs: range(0, 1000).exactOptional(),
  gainStepDb: range(0.01, 12).exactOptional(),
  gainMinDb: decibels.exactOptional(),
  gainMaxDb: decibels.exactOptional(),
  polarity: z.boolean().exactOptional(),
});

export const processor = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  inputs: z
    .array(
      z.strictObject({
        id: partId,
        kind: z.enum(signalKinds).exactOptional(),
        /** Loudest RMS voltage that it takes. */
        maxV: volts.exactOptional(),
        /** The source output that it hears. */
        from: terminal.exactOptional(),
        /** An adaptor between them: differential takes speaker level, grounded ties the minus lead to ground. */
        adaptor: z.enum(['none', 'differential', 'grounded']).exactOptional(),
      }),
    )
    .max(64)
    .exactOptional(),
  outputs: z
    .array(z.strictObject({ id: partId, maxV: volts.exactOptional(), balanced: z.boolean().exactOptional() }))
    .max(64)
    .exactOptional(),
  noiseUv: range(0, 100_000).exactOptional(),
  headroomDb: range(0, 40).exactOptional(),
  latencyMs: range(0, 1000).exactOptional(),
  rateHz: range(8000, 768_000).exactOptional(),
  dials: dials.exactOptional(),
  currentA: amperes.exactOptional(),
  turnOnA: amperes.exactOptional(),
  groundAt: name.exactOptional(),
  supplyV: z.union([z.literal(12), z.literal(24)]).exactOptional(),
  note: note.exactOptional(),
});

const rating = z.strictObject({ ohm: ohms, powerW: watts });

export const amplifierClasses = ['A', 'AB', 'G', 'H', 'D', 'D-sub'] as const;

export const amplifier = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  class: z.enum(amplifierClasses).exactOptional(),
  channels: z
    .array(
      z.strictObject({
        id: partId,
        /** Continuous power by load, as the maker rates it. */
        ratings: z.array(rating).min(1).max(12).exactOptional(),
        minimumOhm: ohms.exactOptional(),
      }),
    )
    .max(32)
    .exactOptional(),
  /** Whether pairs of channels may be bridged. */
  bridgeable: z.boolean().exactOptional(),
  /** Each channel is bridged inside already. */
  fullBridge: z.boolean().exactOptional(),
  sensitivityMinV: volts.exactOptional(),
  sensitivityMaxV: volts.exactOptional(),
  inputNoiseUv: range(0, 100_000).exactOptional(),
  /** Its own fuses, one number each. */
  ownFusesA: z.array(amperes).max(16).exactOptional(),
  supplyMinV: volts.exactOptional(),
  supplyV: z.union([z.literal(12), z.literal(24)]).exactOptional(),
  regulated: z.boolean().exactOptional(),
  efficiency: range(0.05, 0.98).exactOptional(),
  idleA: amperes.exactOptional(),
  turnOnA: amperes.exactOptional(),
  groundAt: name.exactOptional(),
  ambientC: range(-40, 120).exactOptional(),
  limiter: z.boolean().exactOptional(),
  /** Whether it is to play a tone at full level, as for setting gains. */
  fullTonePlanned: z.boolean().exactOptional(),
  note: note.exactOptional(),
});

/** One processor output, the amplifier channel that it feeds, and what it is planned to be set to. */
export const channel = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  /** Processor output, `DSP/1`. */
  output: terminal.exactOptional(),
  /** Amplifier channel, `A/1`. */
  amplifier: terminal.exactOptional(),
  /** Which processor inputs it plays, `DSP/left`. */
  inputs: z.array(terminal).max(16).exactOptional(),
  /** Null says that there is none, on purpose. */
  highPass: filter.nullable().exactOptional(),
  lowPass: filter.nullable().exactOptional(),
  /** Boosts and cuts that are planned: a boost costs as much of what the channel can do there. */
  eq: z.array(equaliserBand).max(64).exactOptional(),
  polarity: z.union([z.literal(1), z.literal(-1)]).exactOptional(),
  gainDb: range(-200, 40).exactOptional(),
  delayMs: range(0, 1000).exactOptional(),
  /** Left over on purpose. */
  spare: z.boolean().exactOptional(),
  overlapDb: range(0, 20).exactOptional(),
  balancedInput: z.boolean().exactOptional(),
  note: note.exactOptional(),
});

/** A coil, or parts in series or in parallel. */
export type Network = string | { s: Network[] } | { p: Network[] };

const joined = <Part extends z.ZodType>(part: Part) =>
  z.union([
    terminal,
    z.strictObject({ s: z.array(part).min(1).max(32) }),
    z.strictObject({ p: z.array(part).min(1).max(32) }),
  ]);

/** Four levels are enough for what a person can wire, and no depth of nesting can exhaust the reader. */
export const network = joined(joined(joined(joined(terminal))));

/** What an amplifier channel drives: coils (`S1/1`) and how they are joined. */
export const load = z.strictObject({
  id: partId,
  name: name.exactOptional(),
  /** Amplifier channel, `A/1`. */
  amplifier: terminal.exactOptional(),
  /** The second channel of a bridged pair. */
  bridgedWith: terminal.exactOptional(),
  network: network.exactOptional(),
  /** Its minus lead is joined to another load's or to ground. */
  minusShared: z.boolean().exactOptional(),
  /** A passive crossover between amplifier and drivers. */
  passive: z
    .strictObject({ fHz: hertz, minimumOhm: ohms.exactOptional(), tweeterLevelChecked: z.boolean().exactOptional() })
    .exactOptional(),
  polarity: z.union([z.literal(1), z.literal(-1)]).exactOptional(),
  /** Duty of what is played: average power over that of a full sine. */
  duty: range(0.001, 2).exactOptional(),
  note: note.exactOptional(),
});

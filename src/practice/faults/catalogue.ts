// Faults of the recording and its surroundings that need nothing but a world: for tables of planted against found.
import type { Fault } from './fault.ts';
import * as file from './file-faults.ts';
import * as noise from './noise-faults.ts';
import * as recorder from './recorder-faults.ts';

/** One entry a fault, each with its usual strength. */
export const recordingFaults: Readonly<Record<string, Fault>> = {
  'clipped-digital': (world) => recorder.clippedDigital(world),
  'clipped-analogue': (world) => recorder.clippedAnalogue(world),
  'clipped-softly': (world) => recorder.clippedAnalogue(world, 8, 'soft'),
  'automatic-gain': (world) => recorder.automaticGain(world),
  gated: (world) => recorder.gated(world),
  suppressed: (world) => recorder.suppressed(world),
  telephone: (world) => recorder.bandLimited(world, 'telephone'),
  voice: (world) => recorder.bandLimited(world, 'voice'),
  'wind-cut': (world) => recorder.bandLimited(world, 'wind-cut'),
  offset: (world) => recorder.offset(world),
  'phone-sixteen-bit': (world) => recorder.phoneSixteenBit(world),
  'lost-samples': (world) => file.lostSamples(world),
  'doubled-samples': (world) => file.doubledSamples(world),
  'zero-filled': (world) => file.zeroFilled(world),
  'wrong-header-rate': (world) => file.wrongHeaderRate(world),
  'truncated-end': (world) => file.truncatedEnd(world),
  'truncated-start': (world) => file.truncatedStart(world),
  clicks: (world) => file.clicks(world),
  'far-clock': (world) => file.farClock(world),
  'too-noisy': (world) => noise.tooNoisy(world),
  'noise-changes': (world) => noise.noiseChanges(world),
  'lorry-passes': (world) => noise.lorryPasses(world),
  'mains-hum': (world) => noise.mainsHum(world),
  'engine-whine': (world) => noise.engineWhine(world),
  silence: (world) => noise.silence(world),
};

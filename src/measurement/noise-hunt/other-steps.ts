// The steps for whine, hum, tones that stand still, hiss and pops.
import { cutStep } from './cut-steps.ts';
import { asking, type HuntStep, mending } from './hunt-step.ts';
import type { Tried } from './tried.ts';

const MOST_RIPPLE_MV = 200;

const consumer = (hunted: 'whine' | 'fixed tone'): HuntStep =>
  mending(
    hunted,
    'shared path of a consumer',
    'Find the one that brings it, and give it and the system separate grounds and supply runs.',
    'With the consumers off it is silent.',
    ['Main fuse out, battery negative off and insulated before a power or ground lead is opened.'],
  );

/** @param phaseTones  whether tones at the alternator's phase frequency are heard */
export function whineStep(phaseTones: boolean, tried: Tried): HuntStep {
  const mv = tried.alternatorRippleMv;
  if (mv !== undefined && mv > MOST_RIPPLE_MV) {
    const next = 'Have the alternator mended first: a diode or a winding. Then record again.';
    return mending(
      'whine',
      'alternator',
      next,
      `${mv} mV of ripple at the battery; more than ${MOST_RIPPLE_MV} mV is bad.`,
    );
  }
  if (phaseTones && mv === undefined) {
    const reason =
      'There are tones at the alternator’s phase frequency: a sound one has only its ripple, six times as high, so a diode or a winding may have failed.';
    return asking('whine', 'alternator', 'alternatorRippleMv', reason);
  }
  return tried.consumersOff === false ? consumer('whine') : cutStep('whine', tried);
}

export function humStep(tried: Tried): HuntStep {
  if (tried.laptopOnBattery === undefined) {
    const reason = 'There is no mains in a car: hum is nearly always brought by what measures it.';
    return asking('hum', 'measuring set-up', 'laptopOnBattery', reason);
  }
  if (tried.laptopOnBattery) return cutStep('hum', tried);
  const next = 'Measure with the laptop on its battery, or part it from the system with an isolating transformer.';
  return mending('hum', 'measuring set-up', next, 'On its battery the hum is gone: the car is not to blame.');
}

export function fixedToneStep(tried: Tried): HuntStep {
  if (tried.consumersOff === undefined) {
    const reason = 'A tone that the engine does not move comes from a motor or a converter that runs on its own.';
    return asking('fixed tone', 'not known yet', 'consumersOff', reason);
  }
  return tried.consumersOff ? cutStep('fixed tone', tried) : consumer('fixed tone');
}

export function hissStep({ followsVolume, fallsWithGain }: Tried): HuntStep {
  if (followsVolume === undefined) {
    const reason = 'Hiss that falls with a control comes from before it; what stays comes from behind it.';
    return asking('hiss', 'not known yet', 'followsVolume', reason);
  }
  if (followsVolume) {
    const next =
      'Take the signal from the source at a higher level or from another output, and lower the gain behind it by as much.';
    return mending('hiss', 'source', next, 'It follows the volume, so it is in the source’s signal.');
  }
  if (fallsWithGain === undefined) {
    const reason = 'It stays when the volume falls, so it comes from behind: the gain parts processor and amplifier.';
    return asking('hiss', 'not known yet', 'fallsWithGain', reason);
  }
  if (fallsWithGain) {
    const next =
      'Raise the processor’s output as far as the gain sheet allows, and turn the amplifier’s gain down by as much.';
    return mending(
      'hiss',
      'before the amplifier',
      next,
      'It falls with the gain, so it comes from before the amplifier.',
    );
  }
  const next =
    'Have the amplifier checked or use a quieter one; until then a pad before a tweeter that is too loud takes the hiss down with it.';
  return mending(
    'hiss',
    'amplifier',
    next,
    'It stays when the gain falls: the amplifier makes it behind its gain control.',
  );
}

export function popStep({ popAmplifierShorted }: Tried): HuntStep {
  if (popAmplifierShorted === undefined) {
    const reason =
      'A pop comes from the amplifier as it wakes or sleeps, or from what stands before it while the amplifier listens.';
    return asking('pops', 'not known yet', 'popAmplifierShorted', reason);
  }
  if (popAmplifierShorted) {
    const next =
      'Give the amplifier a steady feed and a clean turn-on lead, then have its muting checked: no order of the others helps.';
    return mending('pops', 'amplifier', next, 'With its inputs shorted nothing but itself can pop.');
  }
  const next =
    'Let the processor come on first and the amplifiers 1 to 3 s after it; at turn-off the amplifiers go first. Record again.';
  return mending(
    'pops',
    'before the amplifier',
    next,
    'Plugs in the amplifier silenced it: a stage before it moves while the amplifier is on.',
  );
}

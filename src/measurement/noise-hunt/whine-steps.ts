// Where a whine enters: the steps that a person takes, each chosen by what the ones before it showed.
import type { ToneClass } from './order-tracking.ts';

/** What has been tried; absent: not yet. */
export interface WhineFindings {
  /** Classes of the tones that are heard. */
  classes: readonly ToneClass[];
  /** Still there with the source unplugged, inputs shorted by plugs. */
  withSourceUnplugged?: boolean | undefined;
  /** Louder and softer with the volume control. */
  followsVolume?: boolean | undefined;
  /** Gone with an isolating transformer or a signal lead laid freely, as a test. */
  goneWithFreeLead?: boolean | undefined;
  /** AC between source chassis and amplifier ground at 2000 rpm, mV. */
  groundDifferenceMv?: number | undefined;
  /** Still there with the amplifier's own inputs shorted. */
  withAmpInputsShorted?: boolean | undefined;
  /** Only there with lights or blower on. */
  onlyWithConsumer?: boolean | undefined;
}

export interface WhineStep {
  /** What the findings say so far. */
  entry:
    | 'measuring chain'
    | 'alternator'
    | 'before the source'
    | 'ground loop'
    | 'between source and amplifier'
    | 'amplifier supply or ground'
    | 'a consumer on the same path'
    | 'not known yet';
  next: string;
  caution?: string;
}

const SUSPICIOUS_GROUND_MV = 10;
const LIVE = 'The engine runs: keep hands, leads and sleeves off belts and fans, and air the workshop.';

/**
 * The next step for a noise, and what the steps so far have shown.
 *
 * @returns always a step; one that ends the search says what to mend
 * Source: own method; the halving of a signal chain.
 */
export function whineStep(findings: WhineFindings): WhineStep {
  const { classes } = findings;
  const follows = classes.some((found) => found.startsWith('alternator') || found.startsWith('engine'));
  if (!follows && classes.includes('mains')) {
    return {
      entry: 'measuring chain',
      next: 'Run the laptop on its battery and unplug every charger, then record again: mains hum is nearly always the set-up’s.',
    };
  }
  if (classes.includes('alternator phase')) {
    return {
      entry: 'alternator',
      next: 'Have the alternator tested: a tone at its phase frequency means a failed diode or winding. More than 0.2 V rms of ripple at the battery post under load is bad.',
      caution: LIVE,
    };
  }
  if (findings.onlyWithConsumer === true) {
    return {
      entry: 'a consumer on the same path',
      next: 'Give that consumer and the system separate grounds and supply paths.',
    };
  }
  if (findings.withSourceUnplugged === undefined) {
    return {
      entry: 'not known yet',
      next: 'Unplug the source, short the inputs with plugs, and listen again.',
      caution: LIVE,
    };
  }
  return findings.withSourceUnplugged ? afterSource(findings) : fromSource(findings);
}

function fromSource({ followsVolume, goneWithFreeLead, groundDifferenceMv }: WhineFindings): WhineStep {
  if (followsVolume === undefined) {
    return { entry: 'not known yet', next: 'Turn the volume control: does the noise follow it?', caution: LIVE };
  }
  if (followsVolume) {
    return {
      entry: 'before the source',
      next: 'Unplug the phone’s charger and run it on its battery; then try the antenna and the source’s own supply.',
    };
  }
  if (goneWithFreeLead === undefined) {
    return {
      entry: 'between source and amplifier',
      next: 'Lay a signal lead freely, or put an isolating transformer in as a test: is the noise gone?',
      caution: LIVE,
    };
  }
  const loop = goneWithFreeLead || (groundDifferenceMv ?? 0) > SUSPICIOUS_GROUND_MV;
  if (!loop && groundDifferenceMv === undefined) {
    return {
      entry: 'between source and amplifier',
      next: 'Measure AC between the source’s chassis and the amplifier’s ground at 2000 rpm: more than 10 mV is suspicious.',
      caution: LIVE,
    };
  }
  return loop
    ? {
        entry: 'ground loop',
        next: 'Ground source and amplifier at one point, and lay the signal lead away from the power run.',
      }
    : {
        entry: 'between source and amplifier',
        next: 'Check gain structure and the screens of the signal leads, plug by plug.',
      };
}

function afterSource({ withAmpInputsShorted }: WhineFindings): WhineStep {
  if (withAmpInputsShorted === undefined) {
    return { entry: 'not known yet', next: 'Short the amplifier’s own inputs and listen again.', caution: LIVE };
  }
  return withAmpInputsShorted
    ? {
        entry: 'amplifier supply or ground',
        next: 'Measure the drop along ground and supply at full current: more than 0.1 V is bad. Then lower the gain, and move leads that run beside speaker leads.',
      }
    : {
        entry: 'between source and amplifier',
        next: 'Unplug piece by piece between source and amplifier until it is gone.',
      };
}

// The steps that halve the path of a tone, from the source to the amplifier.
import { asking, BATTERY_OFF, type Hunted, type HuntStep, mending } from './hunt-step.ts';
import { noisePath } from './noise-path.ts';
import type { Tried } from './tried.ts';

const SUSPICIOUS_GROUND_MV = 10;
const MOST_DROP_MV = 100;

/**
 * The next cut for a tone, whatever the order in which the others were made.
 *
 * @param hunted  what is heard
 * @returns always a step; one without a test says what to mend
 * Source: own method; the halving of a signal chain.
 */
export function cutStep(hunted: Hunted, tried: Tried): HuntStep {
  if (noisePath(tried, null).contradiction) {
    const reason = 'The answers so far exclude each other: no part of the path is left that could bring it.';
    const again = asking(hunted, 'not known yet', 'sourceUnplugged', reason);
    return { ...again, next: `Repeat the cuts, one at a time, all else as it was. ${again.next}` };
  }
  if (tried.amplifierShorted === true) return atAmplifier(hunted, tried);
  if (tried.sourceUnplugged === undefined) {
    const reason =
      tried.amplifierShorted === false
        ? 'Plugs in the amplifier silenced it, so it enters before; this cut halves what is left.'
        : 'This cut halves the path: it parts source and signal leads from processor and amplifier.';
    return asking(hunted, 'not known yet', 'sourceUnplugged', reason);
  }
  return tried.sourceUnplugged ? behindSource(hunted, tried) : fromSource(hunted, tried);
}

function fromSource(hunted: Hunted, tried: Tried): HuntStep {
  if (tried.followsVolume === undefined) {
    const reason = 'Unplugging the source silenced it: the volume control parts the source from its leads.';
    return asking(hunted, 'not known yet', 'followsVolume', reason);
  }
  if (tried.followsVolume) return beforeVolume(hunted, tried);
  if (tried.freeLead === undefined) {
    const reason =
      'It enters behind the volume control and before the plugs: by the leads, or by the grounds at their ends.';
    return asking(hunted, 'signal leads', 'freeLead', reason);
  }
  const one =
    'Ground source and amplifier at one point, and lay the signal lead 20 cm from the power run, crossing it square.';
  if (!tried.freeLead) {
    const reason =
      'A free lead or an isolating transformer silenced it: two grounds close a loop, or the power run couples in.';
    return mending(hunted, 'ground loop', one, reason, [BATTERY_OFF]);
  }
  return grounds(hunted, tried, 'signal leads', one);
}

function grounds(hunted: Hunted, tried: Tried, entry: 'signal leads' | 'processor', mend: string): HuntStep {
  const mv = tried.groundDifferenceMv;
  if (mv === undefined) {
    const reason =
      entry === 'processor'
        ? 'It enters between the processor’s inputs and the amplifier’s: what differs there is the ground.'
        : 'A free lead did not silence it: what is left between the two is the ground.';
    return asking(hunted, entry, 'groundDifferenceMv', reason);
  }
  if (mv > SUSPICIOUS_GROUND_MV) {
    const reason = `${mv} mV lie between the two grounds; more than ${SUSPICIOUS_GROUND_MV} mV is suspicious.`;
    return mending(hunted, 'ground loop', mend, reason, [BATTERY_OFF]);
  }
  const next =
    entry === 'processor'
      ? 'Feed the processor from a separate battery as a test, then check its supply filter and the plugs of its outputs, one by one.'
      : 'Check the screens and plugs of the signal leads one by one, and the levels: a source that is turned low needs gain that lifts the noise.';
  return mending(hunted, entry, next, `The grounds agree within ${mv} mV, so they do not bring it.`, [BATTERY_OFF]);
}

function beforeVolume(hunted: Hunted, tried: Tried): HuntStep {
  if (tried.chargerUnplugged === undefined) {
    const reason =
      'It follows the volume, so it is in the signal before the control; a charger is the likeliest and the quickest to rule out.';
    return asking(hunted, 'source', 'chargerUnplugged', reason);
  }
  if (!tried.chargerUnplugged) {
    const next = 'Use another charger, or one with separated grounds, or run the phone on its battery.';
    return mending(hunted, 'charger', next, 'Without the charger it is silent.');
  }
  if (tried.antennaUnplugged === undefined) {
    return asking(
      hunted,
      'source',
      'antennaUnplugged',
      'The charger is ruled out; the antenna is a second ground of the source.',
    );
  }
  if (!tried.antennaUnplugged) {
    const next = 'Clean the antenna’s ground at the body, or part it from the source with a filter made for antennas.';
    return mending(hunted, 'antenna', next, 'Without the antenna it is silent.');
  }
  const next =
    'Feed the source from the battery as a test, with a fuse at the battery; then mend its supply or its ground.';
  return mending(hunted, 'source', next, 'Charger and antenna are ruled out: the source’s own supply is left.', [
    BATTERY_OFF,
  ]);
}

function behindSource(hunted: Hunted, tried: Tried): HuntStep {
  if (tried.amplifierShorted === undefined) {
    const reason = 'It is there without the source: the next cut parts the processor from the amplifier.';
    return asking(hunted, 'not known yet', 'amplifierShorted', reason);
  }
  const mend = 'Ground processor and amplifier at one point, and feed both from there.';
  return grounds(hunted, tried, 'processor', mend);
}

function atAmplifier(hunted: Hunted, tried: Tried): HuntStep {
  const mv = tried.amplifierDropMv;
  if (mv === undefined) {
    const reason = 'With its inputs shorted the amplifier has nothing but its feed to hear it by.';
    return asking(hunted, 'amplifier supply or ground', 'amplifierDropMv', reason);
  }
  if (mv > MOST_DROP_MV) {
    const next = 'Find the bad contact along that run: bare metal under the lug, tight, or a thicker cable.';
    const reason = `${mv} mV drop at full current; more than ${MOST_DROP_MV} mV is bad.`;
    return mending(hunted, 'amplifier supply or ground', next, reason, [BATTERY_OFF]);
  }
  const next =
    'Turn the amplifier’s gain to what the gain sheet says, and move signal leads away from supply and loudspeaker leads.';
  return mending(
    hunted,
    'amplifier',
    next,
    `The feed drops only ${mv} mV: too much gain or a lead that picks it up is left.`,
  );
}

// Which noise is hunted, and what to do next about it.
import type { HissFound } from './hiss-aim.ts';
import { type Hunted, type HuntStep, mending, recording, type TakeRole } from './hunt-step.ts';
import type { HuntedTone } from './hunted-tones.ts';
import { fixedToneStep, hissStep, humStep, popStep, whineStep } from './other-steps.ts';
import type { TakeProblem } from './take-noise.ts';
import type { Tried } from './tried.ts';

/** What the takes showed. */
export interface HuntFacts {
  tones: readonly HuntedTone[];
  hiss: HissFound | null;
  pops: number;
  /** Takes that can be used. */
  has: Record<TakeRole, boolean>;
  problems: { role: TakeRole; problem: TakeProblem }[];
  speedsNoted: boolean;
  tried: Tried;
  /** What the person says is heard, whatever the takes show. */
  heard: Hunted | undefined;
}

const STEADY = 'Hold the revs steady for 5 s or more, the recording level as it was, and note them.';

export const followsEngine = ({ class: found }: Pick<HuntedTone, 'class'>): boolean =>
  found.startsWith('alternator') || found === 'engine or ignition';

/** It follows the engine, and it is not the engine itself that a microphone hears. */
export const systemFollowsEngine = (tone: HuntedTone): boolean =>
  followsEngine(tone) && !tone.mayBeEngine && (tone.class !== 'engine or ignition' || tone.carsOwn === false);

/** Tones that are worth hunting: heard, and not made by the car itself. */
export const worthHunting = (tones: readonly HuntedTone[]): HuntedTone[] =>
  tones.filter(({ audible, carsOwn }) => audible && carsOwn !== true);

/** What the takes say is to be hunted, the most telling first; null where nothing is. */
export function huntedNoise({ tones, hiss, pops, heard }: HuntFacts): Hunted | null {
  if (heard) return heard;
  const worth = worthHunting(tones);
  if (worth.some(systemFollowsEngine)) return 'whine';
  if (worth.some((tone) => tone.class === 'mains')) return 'hum';
  if (worth.some((tone) => tone.class === 'fixed')) return 'fixed tone';
  if (hiss?.standsOut) return 'hiss';
  return pops > 0 ? 'pops' : null;
}

/** A take that would tell what the ones so far do not; null where none would. */
function takeWanted({ tones, hiss, has, speedsNoted, problems }: HuntFacts): HuntStep | null {
  const again = problems.find(({ role }) => !has[role]);
  const worth = worthHunting(tones);
  const untold = worth.find((tone) => tone.class === 'cannot tell' && !tone.mayBeEngine);
  const engineOwn = worth.some((tone) => tone.mayBeEngine || (followsEngine(tone) && tone.carsOwn === null));
  if (again) return recording(null, again.role, again.problem.mend, again.problem.message);
  if (untold && has.idle !== has.revs) {
    const role = has.idle ? 'revs' : 'idle';
    const next = `Record ${has.idle ? 'at 1500 to 2500 rpm' : 'at idle'}. ${STEADY}`;
    return recording('whine', role, next, 'One engine speed cannot show which tones move with the engine.');
  }
  if (untold && has.idle && has.revs && !speedsNoted) {
    return recording('whine', 'revs', `Note both speeds, or record both again. ${STEADY}`, untold.why);
  }
  if (engineOwn && !has.engineAlone) {
    const next = 'Record the idling engine with the system off, the microphone where it was.';
    return recording(
      'whine',
      'engineAlone',
      next,
      'A microphone hears the engine itself too; only what the system adds counts.',
    );
  }
  if (untold && has.idle && has.revs) {
    return recording('whine', 'revs', `Record both speeds again. ${STEADY}`, untold.why);
  }
  // Relative levels say nothing yet of a hiss that may be none: the engine's tones come first.
  if (hiss?.verdict === 'cannot say' && !has.systemOff && (hiss.loud || (has.idle && has.revs))) {
    const next = 'Record with the system off and the engine off, the microphone and the recording level as they were.';
    return recording('hiss', 'systemOff', next, hiss.why);
  }
  return null;
}

function stepFor(hunted: Hunted, { tones, tried }: HuntFacts): HuntStep {
  const phase = worthHunting(tones).some((tone) => tone.class === 'alternator phase' && systemFollowsEngine(tone));
  if (hunted === 'whine') return whineStep(phase, tried);
  if (hunted === 'hum') return humStep(tried);
  if (hunted === 'fixed tone') return fixedToneStep(tried);
  return hunted === 'hiss' ? hissStep(tried) : popStep(tried);
}

/** The step that comes next, with its reason. */
export function nextStep(facts: HuntFacts): HuntStep {
  const hunted = huntedNoise(facts);
  if (hunted) return stepFor(hunted, facts);
  const wanted = takeWanted(facts);
  if (wanted) return wanted;
  const { has } = facts;
  if (!has.idle && !has.revs) {
    const reason = has.off ? 'With the engine off nothing is to be hunted.' : 'Only turning on or off was recorded.';
    return recording(null, 'idle', `Record at idle and at 1500 to 2500 rpm. ${STEADY}`, reason);
  }
  if (has.idle !== has.revs) {
    const role = has.idle ? 'revs' : 'idle';
    const next = `Record ${has.idle ? 'at 1500 to 2500 rpm' : 'at idle'} too. ${STEADY}`;
    return recording(null, role, next, 'At this speed nothing is heard; whine often rises with the revs.');
  }
  if (!has.off) {
    const next = 'Record with the engine off and the system on, the recording level as it was.';
    return recording(null, 'off', next, 'No tone is heard; hiss is judged with the engine off.');
  }
  return {
    ...mending(
      'whine',
      'not known yet',
      'Nothing is to be hunted. Keep the takes as proof.',
      'No tone stands out enough to be heard, and the hiss keeps to the aim or cannot be told from the car’s own noise.',
    ),
    hunted: null,
  };
}

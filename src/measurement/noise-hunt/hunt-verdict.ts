// The whole hunt in one sentence.
import type { HissFound } from './hiss-aim.ts';
import type { Hunted, HuntStep } from './hunt-step.ts';
import type { HuntedTone } from './hunted-tones.ts';
import { followsEngine, systemFollowsEngine, worthHunting } from './next-step.ts';

const counts = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine'];
const tonesThat = (count: number, one: string, many: string): string =>
  `${counts[count] ?? count} tone${count === 1 ? ` ${one}` : `s ${many}`}`;

function hissHeard(hiss: HissFound | null): string {
  if (!hiss) return 'A hiss is heard; no take with the engine off measures it';
  if (hiss.standsOut) return hiss.why.replace(/\.$/, '');
  return hiss.verdict === 'within'
    ? 'A hiss is heard that keeps to the aim'
    : 'A hiss is heard that these takes cannot judge';
}

function whatIsHeard(
  hunted: Hunted | null,
  tones: readonly HuntedTone[],
  hiss: HissFound | null,
  pops: number,
): string {
  const worth = worthHunting(tones);
  if (hunted === 'whine') {
    const moving = worth.filter(systemFollowsEngine);
    if (moving.length === 0) return 'A whine is heard that these takes do not hold';
    const phase = moving.some(({ class: found }) => found === 'alternator phase');
    const ripple = moving.some(({ class: found }) => found === 'alternator ripple');
    const from = phase
      ? 'at the alternator’s phase frequency: a diode or a winding may have failed'
      : ripple
        ? 'at the alternator’s ripple: it is the charging current'
        : 'at orders of the engine';
    return `${tonesThat(moving.length, 'climbs', 'climb')} with the engine, ${from}`;
  }
  const count = (wanted: HuntedTone['class']) => worth.filter(({ class: found }) => found === wanted).length;
  if (hunted === 'hum') {
    return count('mains') > 0
      ? `${tonesThat(count('mains'), 'is', 'are')} mains hum`
      : 'A hum is heard that these takes do not hold';
  }
  if (hunted === 'fixed tone') {
    return count('fixed') > 0
      ? `${tonesThat(count('fixed'), 'stands', 'stand')} still whatever the engine does`
      : 'A tone is heard that these takes do not hold';
  }
  if (hunted === 'hiss') return hissHeard(hiss);
  if (hunted === 'pops') {
    return pops > 0
      ? `${counts[pops] ?? pops} pop${pops === 1 ? ' stands' : 's stand'} out of the take`
      : 'A pop is heard that no take holds';
  }
  const untold = worth.filter((tone) => tone.class === 'cannot tell' && !tone.mayBeEngine).length;
  if (untold > 0)
    return `${tonesThat(untold, 'is', 'are')} heard, and what ${untold === 1 ? 'it comes' : 'they come'} from cannot be said yet`;
  const moving = worth.filter((tone) => followsEngine(tone) || tone.mayBeEngine);
  if (moving.length > 0)
    return `${tonesThat(moving.length, 'turns', 'turn')} with the engine, and the engine itself may make ${moving.length === 1 ? 'it' : 'them'}`;
  return '';
}

/** One sentence that carries the result: what is heard, and where it enters as far as that is known. */
export function huntVerdict(
  step: HuntStep,
  hunted: Hunted | null,
  tones: readonly HuntedTone[],
  found: { hiss: HissFound | null; pops: number; usable: number },
): string {
  if (found.usable === 0) return 'None of the takes can be used.';
  const heard = whatIsHeard(hunted, tones, found.hiss, found.pops);
  if (heard === '') {
    return tones.some(({ audible }) => audible)
      ? 'What is heard is the car’s own sound, not the system’s.'
      : 'No tone stands out enough to be heard.';
  }
  if (hunted === null) return `${heard}.`;
  if (step.entry === 'not known yet') return `${heard}; where it enters is not known yet.`;
  const sure = step.test === null;
  return `${heard}; it ${sure ? 'enters' : 'most likely enters'} ${entryWords[step.entry]}.`;
}

const entryWords: Record<Exclude<HuntStep['entry'], 'not known yet'>, string> = {
  'measuring set-up': 'by the measuring set-up',
  alternator: 'at the alternator',
  source: 'at the source or what feeds it',
  charger: 'by the charger',
  antenna: 'by the antenna',
  'ground loop': 'by a ground loop',
  'signal leads': 'along the signal leads',
  processor: 'at the processor',
  'before the amplifier': 'before the amplifier',
  'amplifier supply or ground': 'by the amplifier’s supply or ground',
  amplifier: 'at the amplifier',
  'shared path of a consumer': 'by a path that a consumer shares',
};

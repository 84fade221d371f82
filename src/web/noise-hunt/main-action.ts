// The one thing to do next in a noise hunt.
import type { NoiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';
import type { MainAction } from '../shell/Bar.tsx';
import { takeNames, testNamesShort } from './hunt-words.ts';
import type { HuntInput } from './use-hunt-inputs.ts';

interface Given {
  hunt: NoiseHunt | null;
  input: HuntInput;
  /** The conclusion stands in the job as it is. */
  noted: boolean;
  onNote: () => void;
  onBack: () => void;
}

/** Brings what is asked for under the hand. */
function focusOn(selector: string): void {
  const found = document.querySelector<HTMLElement>(selector);
  found?.focus();
  found?.scrollIntoView({ block: 'center' });
}

export function mainActionOf({ hunt, input, noted, onNote, onBack }: Given): MainAction {
  const { recorder } = input;
  if (recorder.role !== null) {
    const small = recorder.seconds < 5 ? '5 s are needed' : 'long enough';
    return { text: 'Stop and keep', small, icon: 'halt', onPress: recorder.stop };
  }
  const test = hunt?.next.test ?? null;
  if (test !== null) {
    const onPress = () => focusOn('.next-step .answers input, .next-step .answers button');
    return { text: testNamesShort[test], small: 'then say what you hear or read', onPress };
  }
  const role = hunt === null ? 'off' : hunt.next.record;
  if (role !== null) {
    const speedsOpen = (['idle', 'revs'] as const).find(
      (one) => input.hunted.takes[one] !== undefined && input.hunted.rpm[one] === undefined,
    );
    if (role === 'revs' && input.hunted.takes.revs !== undefined && speedsOpen !== undefined) {
      return {
        text: 'Type the revs',
        small: 'of both takes, if they are known',
        onPress: () => focusOn(`[data-take="${speedsOpen}"] input:not([type="file"])`),
      };
    }
    const { name } = takeNames[role];
    return {
      text: `Record: ${name.toLowerCase()}`,
      small: '5 s or more, nothing plays',
      icon: 'record',
      onPress: () => recorder.start(role),
    };
  }
  if (noted) return { text: 'Back to the job', small: 'the conclusion is written down', onPress: onBack };
  return { text: 'Write it down', small: 'as a note in the job', onPress: onNote };
}

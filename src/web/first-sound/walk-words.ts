// The sentences of the channel walk.
import type { JobWalk } from '../../job/walk/job-walk.ts';
import { testWords } from '../../wiring/fault-words.ts';
import { countWords } from '../shop/job-words.ts';

/** What to do now, as the screen opens with it. */
export function walkSentence({ next, walk, proves }: JobWalk): string {
  switch (next.do) {
    case 'plan':
      return `The walk needs the plan first: ${next.needs}.`;
    case 'play': {
      const { id, name } = next.channel;
      return next.again
        ? `Play ${id} once more: what was heard does not fit together.`
        : `Play ${id}, ${name}. Tap the place where you hear it.`;
    }
    case 'test':
      return testWords(walk, next.test.test).ask;
    case 'mend':
      return next.faults.map(({ act }) => act).join(' ');
    case 'proven':
      return proves.length === 0
        ? 'Every channel is heard where it is planned, and proven.'
        : 'Every channel is heard where it is planned.';
  }
}

/** How many explanations are left, in a sentence. */
export function explanationsSentence({ answer, heardOf, next }: JobWalk): string {
  const count = answer.explanations.length;
  if (heardOf.size === 0) return 'Nothing is heard yet.';
  if (answer.unexplained) return 'Nothing plausible explains what was heard.';
  if (answer.status === 'as planned')
    return next.do === 'proven' ? 'Everything is as planned.' : 'So far everything is as planned.';
  const faults = answer.explanations[0].faults.length;
  if (count === 1) return `${countWords(faults, 'fault explains', 'faults explain')} all that was heard.`;
  return `${countWords(count, 'explanation', 'explanations')} fit equally well.`;
}

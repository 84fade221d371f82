// What the job card leads to next, from what the job waits for.
import type { JobView } from '../api-client.ts';
import { asDriven, coversText } from '../plan/cover-words.ts';
import { countWords } from '../shop/job-words.ts';

/** The sentence of the card. */
export function cardSentence({ job }: JobView): string {
  const kept = job.takes.filter((take) => take.kept).length;
  const heard = kept === 0 ? 'The car has not been heard yet' : `${countWords(kept, 'take is', 'takes are')} kept`;
  if (job.covers.length === 0) return `${heard}. Say which covers are off.`;
  const covers = asDriven(job.covers) ? 'All covers are fastened.' : `${coversSentence(coversText(job.covers))}.`;
  return `${heard}. ${covers}`;
}

/** The first cover letter carries no verb of its own: "B off" becomes "B is off". */
function coversSentence(text: string): string {
  return text.replace(/^([A-Z](?:, [A-Z])*(?: and [A-Z])?) (off|resting)/, (_, names: string, state: string) => {
    return `${names} ${names.length > 1 ? 'are' : 'is'} ${state}`;
  });
}

export interface NextAct {
  text: string;
  small: string;
}

/** The main action of the card. */
export function nextAct({ job, waits }: JobView): NextAct {
  const codes = waits.map(({ code }) => code);
  if (codes.includes('take-missing'))
    return { text: 'Record the first take', small: 'the car as it came in, half a minute' };
  if (codes.includes('take-as-driven-missing') && asDriven(job.covers)) {
    return { text: 'Record it as it is driven', small: 'all covers fastened' };
  }
  return {
    text: 'Record a take',
    small: job.covers.length === 0 ? 'asks which covers are off' : coversText(job.covers),
  };
}

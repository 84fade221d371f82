// What the job card leads to next, from what the job waits for.
import type { JobView } from '../api-client.ts';
import { asDriven, coversText } from '../plan/cover-words.ts';
import { countWords } from '../shop/job-words.ts';

/** The sentence of the card; while the covers are asked for it says so. */
export function cardSentence({ job }: JobView, asking: boolean): string {
  const kept = job.takes.filter((take) => take.kept).length;
  const heard = kept === 0 ? 'The car has not been heard yet' : `${countWords(kept, 'take is', 'takes are')} kept`;
  if (asking) return `${heard}. Which covers are off?`;
  if (job.covers.length === 0) return `${heard}.`;
  if (asDriven(job.covers)) return `${heard}. All covers are fastened.`;
  const having = (wanted: 'off' | 'resting') => job.covers.filter(({ state }) => state === wanted).length;
  const [off, resting] = [having('off'), having('resting')];
  const offWords = countWords(off, 'cover is off', 'covers are off');
  if (resting === 0) return `${heard}. ${offWords}.`;
  if (off === 0) return `${heard}. ${countWords(resting, 'cover rests', 'covers rest')}, not fastened.`;
  return `${heard}. ${offWords}, ${countWords(resting, 'rests', 'rest').toLowerCase()}.`;
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
    small: job.covers.length === 0 ? 'with whatever stands in the bay' : coversText(job.covers),
  };
}

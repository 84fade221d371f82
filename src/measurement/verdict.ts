// One sentence that says what a recording is worth.
import type { Problem } from './problems.ts';

/** The verdict from the problems, most serious first. */
export function verdictOf(problems: Problem[], medianSnrDb: number | null): string {
  const stop = problems.find(({ severity }) => severity === 'stop');
  if (stop) return `Not usable: ${lowerFirst(stop.message)}`;
  const limit = problems.find(({ severity }) => severity === 'limit');
  if (limit) return `Usable in part: ${lowerFirst(limit.message)}`;
  const quiet = medianSnrDb === null ? '' : `, ${medianSnrDb.toFixed(0)} dB over the background`;
  const noted = problems.length > 0 ? ` Note: ${lowerFirst(problems[0].message)}` : '';
  return `A sound recording${quiet}.${noted}`;
}

function lowerFirst(text: string): string {
  // A name or an abbreviation keeps its capital.
  return /^[A-Z][a-z]/.test(text) || /^[A-Z] /.test(text) ? text[0].toLowerCase() + text.slice(1) : text;
}

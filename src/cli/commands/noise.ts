// `noise`: whine, hum, hiss and pops from a few takes, and the test that comes next.
import type { Issue } from '../../base/result.ts';
import { noiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';
import type { Command, CommandContext, CommandOutcome } from '../command.ts';
import { dashed, noiseCallFrom, noiseOptionList, openTakes } from '../noise-options.ts';
import { noiseText } from '../noise-text.ts';

/** An issue of the hunt names the take; a person needs the option. */
const atOption = (issue: Issue): Issue =>
  issue.where === undefined ? issue : { ...issue, where: `--${dashed(issue.where)}` };

function run({ operands, given, onProgress }: CommandContext): CommandOutcome {
  const mend = 'Say what each take is: kickpanel noise --off off.wav --idle idle.wav --revs revs.wav';
  const call = noiseCallFrom(given);
  const stray = operands.map((where) => ({
    code: 'too-many-arguments',
    message: 'noise takes each recording by an option.',
    where,
    mend,
  }));
  if (!call.ok || stray.length > 0) return { status: 2, issues: [...stray, ...(call.ok ? [] : call.issues)] };
  const opened = openTakes(given, call.value);
  if (!opened.ok) return { status: 2, issues: opened.issues };
  const { takes, close } = opened.value;
  try {
    onProgress(0, 'looking for tones');
    const hunt = noiseHunt(takes, call.value.options);
    if (!hunt.ok) return { status: 2, issues: hunt.issues.map(atOption) };
    return {
      status: hunt.value.takes.some(({ usable }) => usable) ? 0 : 1,
      answer: { schema: 'kickpanel.noise/1', ...hunt.value },
      text: (style) => noiseText(hunt.value, style),
    };
  } finally {
    close();
  }
}

export const command: Command = {
  name: 'noise',
  summary: 'hunt whine, hum, hiss and pops: what they come from, where they enter, and the test that comes next',
  usage: 'noise [--off OFF.wav] [--idle IDLE.wav --idle-rpm N] [--revs REVS.wav --revs-rpm N]',
  details:
    'Nothing plays; volume as usual, source connected, the microphone in one place and the recording level untouched from the first take to the last. Each take lasts 5 s or more, the revs held still. Two engine speeds tell what moves with the engine; a take with the system off tells what is the car’s own. After each test call it again with the answer. Caution: a running engine kills in a closed bay by its exhaust gas, and pulls hands, leads and sleeves in by its belts and fans: door open, exhaust led outside, one person at the wheel. Status 1: none of the takes can be used.',
  options: noiseOptionList,
  example: 'kickpanel noise --off off.wav --revs revs.wav --revs-rpm 2150',
  run,
};

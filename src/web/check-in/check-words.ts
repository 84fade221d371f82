// What the two screens say: the sentence, the next act, and the words on the buttons.
import type { CheckStage } from '../../job/check-in/check-forms.ts';
import type { CheckIn, CheckReport } from '../../job/check-in/check-in.ts';

export const stageWords: Record<CheckStage, string> = { arrive: 'Arrive', refit: 'Refit' };

export const groupWords: Record<CheckReport['group'], { title: string; small: string }> = {
  complaint: { title: 'The complaint', small: 'in the words of the owner' },
  condition: { title: 'Condition', small: 'a picture each; no plates, no faces' },
  marks: { title: 'Marks', small: 'scratches, dents, chips, wear' },
  battery: { title: 'Battery', small: 'at rest, asleep, charging' },
  dash: { title: 'Dash', small: 'ignition on, then engine on' },
  sounds: { title: 'Factory sounds', small: 'all that the car says by itself' },
  works: { title: 'What works', small: 'tried, not asked' },
  baseline: { title: 'Before any work', small: 'it comes last: a door that opens wakes the car' },
};

/** The first check of a stage that nobody has answered, in the order in which a car is walked. */
export function nextCheck({ checks }: CheckIn, at: CheckStage): CheckReport | undefined {
  return checks.find(
    (report) =>
      (report.group !== 'marks' || (at === 'refit' && report.arrive !== null)) &&
      (report[at] === null || report[at]?.verdict === 'not-tried'),
  );
}

export function checkInSentence({ says, counts }: CheckIn, at: CheckStage): string {
  if (counts[at].done > 0) return says[at];
  return at === 'arrive' ? 'Look the car over before anything is touched.' : 'Look the car over again, covers back.';
}

/** What the main action does about the next check. */
export function nextWords({ answers, name }: CheckReport, at: CheckStage): string {
  const said = `${name[0].toLowerCase()}${name.slice(1)}`;
  switch (answers[at][0]) {
    case 'said':
      return 'Take down the complaint';
    case 'measured':
      return `Read the ${said}`;
    case 'photo':
      return `Photograph the ${said}`;
    case 'take':
      return `Keep the ${said}`;
    default:
      return `${at === 'refit' ? 'Try again' : 'Try'}: ${said}`;
  }
}

/** What somebody may have found, as it is pressed. */
export const foundWords: Record<CheckStage, { ok: string; fault: string }> = {
  arrive: { ok: 'Fine', fault: 'A fault' },
  refit: { ok: 'As it came', fault: 'Not as it came' },
};

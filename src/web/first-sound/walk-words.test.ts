import { expect, test } from 'vitest';
import { Bench, openJob } from '../../../test/job/given.ts';
import { jobWalk, soundOf } from '../../job/walk/job-walk.ts';
import { templateNames } from '../../plan/templates/templates.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import { explanationsSentence, walkSentence } from './walk-words.ts';

test.each(templateNames)(
  'a walk through %s begins with a channel by name, and every channel has a sound',
  (template) => {
    const { state } = new Bench().does(openJob, { command: 'startPlanFromTemplate', template });
    const walk = jobWalk(state);
    expect(walkSentence(walk)).toMatch(/^Play C\d+, .+\. Tap the place where you hear it\.$/);
    expect(explanationsSentence(walk)).toBe('Nothing is heard yet.');
    for (const channel of walk.walk.channels) {
      const { fromHz, toHz, levelDbfs } = soundOf(state, channel);
      const track = designTrack({ kind: 'noise', rateHz: 48_000, fromHz, toHz, levelDbfs, side: channel.side });
      expect(track.ok ? [] : track.issues).toEqual([]);
    }
  },
);

test('without a plan it says what it needs', () => {
  expect(walkSentence(jobWalk(new Bench().does(openJob).state))).toBe('The walk needs the plan first: channels.');
});

// `job cover JOB COVER off|resting|fastened`: how a cover is. One that hides what is unproven is fastened by name only.
import { jobHoldPoints, planCoverNamed, unprovenBehind } from '../../job/hold-points/behind-cover.ts';
import { counted } from '../../job/rules/words.ts';
import { coverStates } from '../../plan/vehicle-parts.ts';
import type { CommandOutcome } from '../command.ts';
import { wordValue } from '../option-values.ts';
import { inWidth, pointLines, testLines } from './hold-point-text.ts';
import { coverUnknown } from './hold-points.ts';
import { issuesOutcome, type JobPart } from './job-call.ts';
import { carriedOut, stateNamed } from './job-state.ts';
import { wishFrom } from './wishes.ts';

export const cover: JobPart = {
  operands: [3, 3],
  usage: 'job cover JOB COVER off|resting|fastened [--by NAME --why TEXT] [--found]',
  async run(call): Promise<CommandOutcome> {
    const { given } = call;
    const [name, called, word] = call.operands;
    const wanted = wordValue('state', word, coverStates);
    if (!wanted.ok) return issuesOutcome(...wanted.issues.map((issue) => ({ ...issue, where: word })));
    const found = await stateNamed(call, name);
    if (!found.ok) return issuesOutcome(...found.issues);
    const state = found.value;
    const known = planCoverNamed(state, called);
    const { covers } = jobHoldPoints(state);
    // A letter may be of a cover that is drawn and hides nothing of the plan.
    if (known === undefined && covers.length > 0 && !/^[A-Z]$/.test(called))
      return coverUnknown(called, covers, called);
    const key = known === undefined ? called : (known.letter ?? known.cover);
    const { open, shortest } = unprovenBehind(state, key);
    const [by, why] = [given('by'), given('why')];
    if ((by === undefined) !== (why === undefined)) {
      const lacks = by === undefined ? '--by NAME' : '--why TEXT';
      const message = 'Who fastens over what is unproven gives a name and a reason.';
      return issuesOutcome({ code: 'option-missing', message, where: lacks, mend: `Give ${lacks} too.` });
    }
    const wish = wishFrom(
      {
        command: 'changeCovers',
        covers: [{ cover: key, state: wanted.value }],
        fastening: wanted.value === 'fastened' && given('found') === undefined ? true : undefined,
        passOver: by === undefined || why === undefined ? undefined : { name: by, why },
      },
      'job cover',
    );
    if (!wish.ok) return issuesOutcome(...wish.issues);
    const written = await carriedOut(call, state.id, wish.value);
    const about = { schema: 'kickpanel.cover/1', job: state.id, cover: key, state: wanted.value };
    if (!written.ok) {
      if (written.issues.some(({ code }) => code !== 'cover-hides-unproven')) return issuesOutcome(...written.issues);
      return {
        status: 1,
        answer: { ...about, set: false, issues: written.issues, open, shortest, appended: [] },
        text: (style) =>
          inWidth(
            [
              `Not fastened: ${called} hides ${counted(open.length, 'unproven point')}.`,
              '',
              ...open.flatMap(pointLines),
              ...testLines(shortest),
              '',
              'To fasten it all the same: --by NAME --why TEXT. Both stand in the journal, with this list.',
            ],
            style,
          ),
      };
    }
    const { appended } = written.value;
    const behind = unprovenBehind(written.value.state, key);
    const over =
      wanted.value === 'fastened' && behind.open.length > 0
        ? ` It hides ${counted(behind.open.length, 'unproven point')}.`
        : '';
    return {
      status: 0,
      answer: { ...about, set: true, issues: [], ...behind, appended },
      text: (style) => inWidth([`Cover ${called} is ${wanted.value}.${over}`], style),
    };
  },
};

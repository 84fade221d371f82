// Whether two takes may be compared, and what they have in common: said before any difference is drawn.
import type { JobView } from '../api-client.ts';
import { coversText } from '../plan/cover-words.ts';

type Take = JobView['job']['takes'][number];

export interface Common {
  severity: 'ok' | 'note' | 'stop';
  text: string;
}

export interface Comparable {
  /** False: the difference would show the measurement, not the car. */
  may: boolean;
  common: Common[];
  /** One sentence for the edge of the bench. */
  why: string;
}

const covers = (take: Take): string => coversText(take.covers);

function sameRecorder(a: Take, b: Take): Common {
  const [one, other] = [a.input?.label, b.input?.label];
  if (one === undefined || other === undefined) return { severity: 'note', text: 'recorder not known' };
  return one === other ? { severity: 'ok', text: 'same recorder' } : { severity: 'note', text: 'other recorder' };
}

function sameLevels(a: Take, b: Take): Common {
  if (a.level.reference !== b.level.reference) return { severity: 'stop', text: 'one calibrated, one not' };
  return a.level.reference === 'spl'
    ? { severity: 'ok', text: 'both in dB SPL' }
    : { severity: 'ok', text: 'both relative' };
}

/** What two takes share. Track, place, covers and the kind of level decide; the rest is worth knowing. */
export function comparable(a: Take, b: Take): Comparable {
  const deciding: Common[] = [
    a.track === b.track ? { severity: 'ok', text: 'same track' } : { severity: 'stop', text: 'another track' },
    (a.place ?? '') === (b.place ?? '')
      ? { severity: 'ok', text: 'same place' }
      : { severity: 'stop', text: 'another place' },
    covers(a) === covers(b) ? { severity: 'ok', text: 'same covers' } : { severity: 'stop', text: 'other covers' },
    sameLevels(a, b),
  ];
  const common = [...deciding, sameRecorder(a, b)];
  const against = deciding.filter(({ severity }) => severity === 'stop').map(({ text }) => text);
  const why =
    against.length === 0
      ? 'They may be compared: track, place and covers are the same.'
      : `Look with care: ${against.join(', ')}. The difference shows that too.`;
  return { may: against.length === 0, common, why };
}

// Two people who changed the same thing without knowing of each other: what each had seen, and what it comes to.
import type { Command, SeenPart } from './commands/commands.ts';
import { statedCover } from './hold-points/behind-cover.ts';
import { givenWords, type Measured, plainValue } from './hold-points/evidence-forms.ts';
import type { JobState } from './projections/job-state.ts';
import { sameFigure } from './rules/same-figures.ts';

/** What the author of a wish had seen of the covers and of the evidence that it speaks of. */
export interface SeenThings {
  parts: SeenPart[];
  covers: { cover: string; since: string | null }[];
  /** Entries that had given evidence for the same hold points. */
  evidence: string[];
}

/** What a wish rests on in the job as its author sees it; made when the wish is made, and sent with it later. */
export function seenBy(state: JobState, wish: Command): SeenThings {
  const covers =
    wish.command === 'changeCovers'
      ? wish.covers.map(({ cover }) => ({
          cover,
          since: statedCover(state, cover)?.since ?? null,
        }))
      : [];
  const evidence =
    wish.command === 'giveEvidence'
      ? state.evidence.filter(({ holdPoint }) => wish.holdPoints.includes(holdPoint)).map(({ entry }) => entry)
      : [];
  return { parts: seenParts(state, wish), covers, evidence };
}

function seenParts({ plan }: JobState, wish: Command): SeenPart[] {
  const all = plan.changes.map(({ part, id, entry, when }) => ({ part, id, entry, when }));
  switch (wish.command) {
    case 'setPlanPart':
    case 'removePlanPart':
      return all.filter(({ part, id }) => part === wish.part && id === wish.id);
    case 'changePlan': {
      const named = new Set(wish.changes.map(({ part, id }) => `${part} ${id}`));
      return all.filter(({ part, id }) => named.has(`${part} ${id}`));
    }
    case 'startPlanFromTemplate':
      return all;
    default:
      return [];
  }
}

/** Whether two meters showed the same, whichever unit they showed it in. */
function sameReading(one: Measured, other: Measured): boolean {
  const [a, b] = [plainValue(one), plainValue(other)];
  return a.unit === b.unit && sameFigure(a.value, b.value);
}

/**
 * What a wish contradicts that its author had not seen: covers that stand otherwise, hold points that were measured
 * otherwise. Parts of a plan are not told here: their changes say what they had seen, and the plan lists its conflicts.
 *
 * @param state  the job as it stands when the wish arrives
 * @param seen   what its author had seen, from `seenBy`
 * @param made   who wished, and when
 * @returns a sentence for each; `[]` where nobody is contradicted
 */
export function contradicted(
  state: JobState,
  wish: Command,
  seen: SeenThings,
  made: { who: string; when: string },
): string[] {
  if (wish.command === 'changeCovers') {
    return wish.covers.flatMap(({ cover, state: wished }) => {
      const now = statedCover(state, cover);
      const before = seen.covers.find((known) => known.cover === cover);
      if (now === undefined || now.state === wished || now.since === (before?.since ?? null)) return [];
      const holds = now.since > made.when ? now.state : wished;
      return [
        `Cover ${cover}: ${made.who} made it ${wished} without knowing that somebody else made it ${now.state}. The later of both counts: ${holds}.`,
      ];
    });
  }
  if (wish.command !== 'giveEvidence' || wish.evidence.how !== 'measured') return [];
  const measured = wish.evidence;
  return state.evidence.flatMap(({ holdPoint, entry, who, evidence }) => {
    if (!wish.holdPoints.includes(holdPoint) || seen.evidence.includes(entry) || evidence.how !== 'measured') return [];
    if (sameReading(measured, evidence)) return [];
    return [
      `${holdPoint}: ${made.who} read ${givenWords(measured)} and ${who} read ${givenWords(evidence)}, neither knowing of the other. Read it once more together.`,
    ];
  });
}

// What each piece of evidence says of its hold point: proven, not as expected, not to be told, or no longer of this car.
import type { PartOf } from '../../plan/plan.ts';
import { channelGain } from '../gains/channel-gain.ts';
import { expectedReading, leadFrom, mainReading, readWiring } from '../rules/lead-readings.ts';
import type { PlanView } from '../rules/plan-view.ts';
import { listed, said } from '../rules/words.ts';
import {
  type Amount,
  type Evidence,
  type EvidenceHow,
  type Expected,
  givenWords,
  isWithin,
  type Measured,
  plainValue,
  plainWords,
} from './evidence-forms.ts';
import type { Doubt, GivenEvidence } from './given-evidence.ts';
import { type PlannedPoint, rangeWords } from './planned-points.ts';

export const evidenceVerdicts = ['proves', 'outside', 'cannot-tell', 'stale'] as const;
export type EvidenceVerdict = (typeof evidenceVerdicts)[number];

/** One piece of evidence with what it comes to. */
export interface JudgedEvidence {
  /** The entry that gave it; null where it stands in a plan without a job. */
  entry: string | null;
  when: string | null;
  who: string | null;
  how: EvidenceHow | 'reading' | 'proof';
  /** What was given, in words: "3.4 ohm", "take Left door", "seen and found right by Ann". */
  says: string;
  verdict: EvidenceVerdict;
  /** Why it does not prove the point; absent where it does. */
  why?: string;
  /** What made it stale. */
  doubt?: Doubt;
}

interface Verdict {
  verdict: EvidenceVerdict;
  why?: string;
}

const proven: Verdict = { verdict: 'proves' };

function outside(value: Amount, expected: Expected): Verdict {
  const why = `It reads ${plainWords(value, expected.unit)}; expected is ${rangeWords(expected)}.`;
  return { verdict: 'outside', why };
}

type Reading = PartOf<'reading'>;

/** All readings of the coils of a load that still count, together: the last one says what they come to. */
function coilsVerdict(view: PlanView, point: PlannedPoint, readings: readonly Reading[]): Verdict {
  const { lane } = point;
  const main = mainReading(readings);
  if (lane === undefined || main?.value === undefined) return { verdict: 'cannot-tell', why: 'Nothing was read.' };
  const lead = leadFrom(view, lane);
  const range = expectedReading(view, lead, main);
  if (range === undefined) return { verdict: 'cannot-tell', why: `Cannot tell: ${point.needs} is not known.` };
  const expected: Expected = { low: range.lowOhm, high: range.highOhm, target: range.midOhm, unit: 'ohm' };
  const read = readWiring(lane, lead, readings, view.lanes);
  const complete = (main.without ?? []).length === 0;
  if (complete && !isWithin(main.value, expected)) {
    const { verdict, why = '' } = outside(main.value, expected);
    const like = read === undefined || read.matches.length === 0 ? '' : ` It looks like ${listed(read.matches)}.`;
    return { verdict, why: `${why}${read?.matches[0] === 'as planned' ? '' : like}` };
  }
  if (read === undefined) {
    if (complete) return proven;
    return { verdict: 'cannot-tell', why: 'Cannot tell: the direct-current resistance of its coils is not known.' };
  }
  if (!read.matches.includes('as planned')) {
    return { verdict: 'outside', why: `It looks like ${listed(read.matches) || 'no single mistake'}.` };
  }
  if (read.verdict === 'unique' && complete) return proven;
  const others = read.matches.filter((name) => name !== 'as planned');
  const why =
    others.length === 0
      ? 'Read it with everything plugged in too.'
      : `It fits the plan, and ${listed(others)} too: unplug one driver, read again and say which.`;
  return { verdict: 'cannot-tell', why };
}

/** What a meter should read for this piece of evidence: a gain was perhaps read with another tone. */
function expectedOf(point: PlannedPoint, { toneDbfs, meterHz }: Measured): Expected | null {
  if (point.kind !== 'gain-set' || point.lane === undefined) return point.expected;
  const { reading } = channelGain(point.lane, {
    ...(toneDbfs === undefined ? {} : { toneDbfs }),
    ...(meterHz === undefined ? {} : { meterHz }),
  });
  return 'needs' in reading ? null : reading.allowed;
}

function measuredVerdict(
  view: PlanView,
  point: PlannedPoint,
  measured: Measured,
  readings: readonly Reading[],
): Verdict {
  const { value, unit } = plainValue(measured);
  if (point.kind === 'coils-read') return coilsVerdict(view, point, readings);
  const expected = expectedOf(point, measured);
  if (expected === null)
    return { verdict: 'cannot-tell', why: `Cannot tell: ${point.needs ?? 'what to expect'} is not known.` };
  if (unit !== expected.unit) {
    return { verdict: 'cannot-tell', why: `Cannot tell: it was read in ${unit}, and ${expected.unit} is expected.` };
  }
  return isWithin(value, expected) ? proven : outside(value, expected);
}

function evidenceWords(view: PlanView, evidence: Evidence): string {
  switch (evidence.how) {
    case 'measured': {
      const { toneDbfs, without = [] } = evidence;
      const tone = toneDbfs === undefined ? '' : ` with a tone at ${said(toneDbfs)} dBFS`;
      return `${givenWords(evidence)}${tone}${without.length === 0 ? '' : ` without ${listed(without)}`}`;
    }
    case 'take':
      return `take ${view.takes.find(({ id }) => id === evidence.take)?.name ?? evidence.take}${evidence.words === undefined ? '' : `: ${evidence.words}`}`;
    case 'photo': {
      const known = view.record.photos.find(({ photo }) => photo === evidence.photo)?.name;
      const name = known ?? evidence.photo.slice(0, 8);
      return `photo ${name}${evidence.words === undefined ? '' : `: ${evidence.words}`}`;
    }
    case 'seen':
      return `seen and found right by ${evidence.name}${evidence.words === undefined ? '' : `: ${evidence.words}`}`;
  }
}

function asReading(id: string, of: string, measured: Measured): Reading {
  const { probesOhm, temperatureC, without } = measured;
  const { value } = plainValue(measured);
  return {
    id,
    of,
    quantity: 'resistance',
    value,
    ...(probesOhm === undefined ? {} : { probesOhm }),
    ...(temperatureC === undefined ? {} : { temperatureC }),
    ...(without === undefined ? {} : { without }),
  };
}

/** One piece before it is judged; those of meters carry what was read. */
interface Piece {
  stamp: { entry: string; when: string; who: string } | null;
  how: JudgedEvidence['how'];
  says: string;
  evidence?: Evidence;
  reading?: Reading;
  doubt?: Doubt;
}

const stampOf = ({ entry, when, who }: { entry: string; when: string; who: string }) => ({ entry, when, who });

/** A part that joined what evidence rests on after it was given, such as a second load on the same amplifier channel. */
function joined(view: PlanView, given: GivenEvidence, basis: PlannedBasis): Doubt | undefined {
  const had = new Set(given.restsOn.map(({ part, id }) => `${part} ${id}`));
  const fresh = basis.find(({ part, id }) => !had.has(`${part} ${id}`));
  if (fresh === undefined) return undefined;
  const { part, id } = fresh;
  const change = view.record.changes.find((known) => known.part === part && known.id === id);
  const stamp = stampOf(change ?? given);
  return { ...stamp, part, id, why: `It came to rest on ${part} ${id}, which it did not when it was proven.` };
}

export type PlannedBasis = readonly Pick<GivenEvidence['restsOn'][number], 'part' | 'id'>[];

function givenPieces(
  view: PlanView,
  point: PlannedPoint,
  given: readonly GivenEvidence[],
  basis: PlannedBasis,
): Piece[] {
  return given.map((one): Piece => {
    const { evidence, stale } = one;
    const doubt = stale ?? joined(view, one, basis);
    const measured = evidence.how === 'measured' && point.kind === 'coils-read';
    return {
      stamp: stampOf(one),
      how: evidence.how,
      says: evidenceWords(view, evidence),
      evidence,
      ...(measured ? { reading: asReading(one.entry, point.of.id, evidence) } : {}),
      ...(doubt === undefined ? {} : { doubt }),
    };
  });
}

/** Readings of the plan that are of the coils of a load, or of a ground. */
function readingPieces(view: PlanView, point: PlannedPoint): Piece[] {
  const { kind, lane, of } = point;
  const about =
    kind === 'coils-read' && lane !== undefined ? leadFrom(view, lane).id : kind === 'ground-holds' ? of.id : null;
  const quantity = kind === 'ground-holds' ? 'ground-drop' : 'resistance';
  if (about === null) return [];
  const readings = view.plan.reading.filter((reading) => reading.of === about && reading.quantity === quantity);
  return readings.flatMap((reading): Piece[] => {
    const { id, value, currentA } = reading;
    if (value === undefined) return [];
    const change = view.record.changes.find((known) => known.part === 'reading' && known.id === id);
    const stale = view.record.stale.find((known) => known.reading === id);
    const doubt: Doubt | undefined =
      stale === undefined ? undefined : { ...stampOf(stale), part: 'reading', id: stale.part, why: stale.why };
    const piece = { stamp: change === undefined ? null : stampOf(change), how: 'reading' as const };
    const more = doubt === undefined ? {} : { doubt };
    if (kind === 'coils-read') return [{ ...piece, says: `${plainWords(value, 'ohm')} (${id})`, reading, ...more }];
    if (value === 'open' || currentA === undefined || currentA <= 0) return [];
    const evidence: Measured = { how: 'measured', value: value / currentA, unit: 'ohm' };
    return [{ ...piece, says: `${said(value)} V at ${said(currentA)} A (${id})`, evidence, ...more }];
  });
}

function proofPieces(view: PlanView, { kind, of }: PlannedPoint): Piece[] {
  const part = kind === 'planned' ? view.part('holdPoint', of.id) : undefined;
  if (part?.proof === undefined) return [];
  const change = view.record.changes.find((known) => known.part === 'holdPoint' && known.id === of.id);
  const stale = view.record.staleProofs.find(({ holdPoint }) => holdPoint === of.id);
  const piece = { stamp: change === undefined ? null : stampOf(change), how: 'proof' as const, says: part.proof };
  if (stale === undefined) return [piece];
  const { holdPoint: _, ...doubt } = stale;
  return [{ ...piece, doubt }];
}

function verdictOf(view: PlanView, point: PlannedPoint, piece: Piece, readings: readonly Reading[]): Verdict {
  const { evidence, reading, doubt } = piece;
  if (doubt !== undefined) return { verdict: 'stale', why: doubt.why };
  if (reading !== undefined) return coilsVerdict(view, point, readings);
  if (evidence === undefined) return proven;
  if (evidence.how === 'measured') return measuredVerdict(view, point, evidence, readings);
  if (!point.accepts.includes(evidence.how)) {
    const how = point.expected === null ? 'another kind of evidence' : `a reading of ${rangeWords(point.expected)}`;
    return { verdict: 'cannot-tell', why: `It takes ${how} to prove it.` };
  }
  if (evidence.how === 'photo') {
    if (view.record.photos.some(({ photo }) => photo === evidence.photo)) return proven;
    return { verdict: 'stale', why: 'The photo was taken back after it was proven.' };
  }
  if (evidence.how === 'seen' || view.takes.some(({ id }) => id === evidence.take)) return proven;
  return { verdict: 'stale', why: `Take ${evidence.take} was set aside or taken back after it was proven.` };
}

/** Everything that was given for a point, the oldest first, each with what it comes to. */
export function judgedEvidence(
  view: PlanView,
  point: PlannedPoint,
  given: readonly GivenEvidence[],
  basis: PlannedBasis,
): JudgedEvidence[] {
  const pieces = [
    ...proofPieces(view, point),
    ...readingPieces(view, point),
    ...givenPieces(view, point, given, basis),
  ];
  const time = ({ stamp }: Piece) => stamp?.when ?? '';
  const ordered = pieces
    .map((piece, n) => ({ piece, n }))
    .sort((a, b) => (time(a.piece) < time(b.piece) ? -1 : time(a.piece) > time(b.piece) ? 1 : a.n - b.n))
    .map(({ piece }) => piece);
  const counting = ordered.flatMap(({ reading, doubt }) =>
    reading === undefined || doubt !== undefined ? [] : [reading],
  );
  return ordered.map((piece): JudgedEvidence => {
    const { stamp, how, says, doubt } = piece;
    const upTo = counting.slice(0, piece.reading === undefined ? counting.length : counting.indexOf(piece.reading) + 1);
    const { entry, when, who } = stamp ?? { entry: null, when: null, who: null };
    const verdict = verdictOf(view, point, piece, upTo);
    return { entry, when, who, how, says, ...verdict, ...(doubt === undefined ? {} : { doubt }) };
  });
}

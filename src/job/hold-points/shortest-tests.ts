// The shortest list of tests that clears open hold points: one walk proves many, a meter reading proves one.
import { z } from 'zod';
import type { HoldPoint } from './hold-points.ts';
import { fewestSets } from './set-cover.ts';

export const proofTestKinds = ['channel-walk', 'near-walk', 'meter', 'look', 'power-cycle', 'listen', 'call'] as const;

export const proofTestSchema = z.object({
  id: z.string().describe('stable for the same hold points'),
  kind: z.enum(proofTestKinds),
  name: z.string(),
  says: z.string().describe('what is done'),
  minutes: z.number().describe('about, by practice; of tests that clear the same the quicker is listed'),
  opens: z.array(z.string()).describe('covers of the plan that must be off for it'),
  clears: z.array(z.string()).describe('hold points'),
});

export const shortestTestsSchema = z.object({
  tests: z.array(proofTestSchema),
  exact: z.boolean().describe('no list of fewer tests clears as much; false: the largest tests were taken first'),
});

export type ProofTest = z.infer<typeof proofTestSchema>;
export type ShortestTests = z.infer<typeof shortestTestsSchema>;

const idsOf = (points: readonly HoldPoint[]) => points.map(({ id }) => id);
const kindIn = (...kinds: HoldPoint['kind'][]) => {
  const set = new Set(kinds);
  return ({ kind }: HoldPoint) => set.has(kind);
};
const takes = ({ accepts }: HoldPoint) => accepts.includes('take');

/** Minutes by practice: a start, and so much for each. */
const minutes = (start: number, each: number, count: number) => Math.round((start + each * count) * 10) / 10;

function walks(points: readonly HoldPoint[]): ProofTest[] {
  const byEar = points.filter(kindIn('channel-reaches', 'lead-connected'));
  const near = points.filter(kindIn('channel-reaches', 'lead-connected', 'driver-polarity'));
  return [
    {
      id: 'channel-walk',
      kind: 'channel-walk' as const,
      name: 'Walk the channels, quiet',
      says: 'Play one channel after the other at low level and say where each is heard. Nothing comes off.',
      minutes: minutes(1, 0.2, byEar.length),
      opens: [],
      clears: idsOf(byEar),
    },
    {
      id: 'near-walk',
      kind: 'near-walk' as const,
      name: 'Takes near each driver',
      says: 'Record the track with the microphone near one driver after the other: side, band and polarity are heard. Nothing comes off.',
      minutes: minutes(2, 0.7, near.length),
      opens: [],
      clears: idsOf(near),
    },
  ].filter(({ clears }) => clears.length > 0);
}

/** One reading proves one point. */
function readings(points: readonly HoldPoint[]): ProofTest[] {
  return points
    .filter(({ accepts }) => accepts.includes('measured'))
    .map(({ id, name, closes, kind, opens }) => ({
      id: `meter ${id}`,
      kind: 'meter' as const,
      name: `Meter: ${name}`,
      says: closes,
      minutes: kind === 'gain-set' ? 3 : 2,
      opens,
      clears: [id],
    }));
}

const withoutLook = kindIn('settings-kept', 'factory-sounds', 'calls-heard');

/** A look behind one cover sees all that this cover alone hides; what more covers hide takes a look behind each. */
function looks(points: readonly HoldPoint[]): ProofTest[] {
  const seeable = points.filter(
    (point) =>
      point.accepts.includes('seen') && !withoutLook(point) && !kindIn('driver-polarity', 'channel-reaches')(point),
  );
  const groups = new Map<string, HoldPoint[]>();
  for (const point of seeable) {
    const key = point.covers.map(({ cover }) => cover).join(' ');
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [point]);
    else group.push(point);
  }
  return [...groups].map(([key, group]) => {
    const covers = group[0].covers;
    const called = covers.map(({ name, cover }) => name ?? cover).join(' and ');
    const opens = covers.map(({ cover }) => cover);
    const within = (point: HoldPoint) => point.covers.every(({ cover }) => opens.includes(cover));
    const seen = covers.length === 0 ? group : seeable.filter((point) => point.covers.length > 0 && within(point));
    return {
      id: `look ${key}`.trim(),
      kind: 'look' as const,
      name: covers.length === 0 ? 'Look over what no cover is known to hide' : `Look behind ${called}`,
      says: `See that it is right: ${seen.map(({ name }) => name).join(', ')}.`,
      minutes: minutes(1 + 2 * covers.length, 0.5, seen.length),
      opens,
      clears: idsOf(seen),
    };
  });
}

function others(points: readonly HoldPoint[]): ProofTest[] {
  const one = (
    kind: ProofTest['kind'],
    name: string,
    says: string,
    time: number,
    of: readonly HoldPoint[],
  ): ProofTest => ({
    id: kind,
    kind,
    name,
    says,
    minutes: time,
    opens: [],
    clears: idsOf(of),
  });
  const sounds = points.filter(kindIn('factory-sounds'));
  return [
    one(
      'power-cycle',
      'Power off, on, read back',
      'Switch the system off until it sleeps, on again, and read every setting back.',
      5,
      points.filter(kindIn('settings-kept')),
    ),
    one(
      'listen',
      'Set off every factory sound',
      'Reverse, belt, door, indicator, parking: each as when the car came.',
      4,
      sounds,
    ),
    one('call', 'Make a call', 'Hold a hands-free call from the seat.', 3, points.filter(kindIn('calls-heard'))),
  ].filter(({ clears }) => clears.length > 0);
}

/** Whether somebody's eyes or a take may prove what no walk does. */
function single(points: readonly HoldPoint[]): ProofTest[] {
  return points
    .filter((point) => kindIn('driver-polarity', 'channel-reaches')(point) && takes(point))
    .map((point) => ({
      id: `near ${point.id}`,
      kind: 'near-walk' as const,
      name: `Take near ${point.of.id}: ${point.name}`,
      says: 'Record the track with the microphone near this driver alone.',
      minutes: 2,
      opens: [],
      clears: [point.id],
    }));
}

/** Every test that proves something of `points`. */
export function proofTests(points: readonly HoldPoint[]): ProofTest[] {
  return [...walks(points), ...looks(points), ...readings(points), ...others(points), ...single(points)];
}

/**
 * The fewest tests that together clear all of `points`; of those that would do as well the quicker.
 *
 * @param points  hold points to be cleared, such as the open ones behind a cover
 * @returns tests in the order in which they are listed for them; each names those of `points` that it clears
 */
export function shortestTests(points: readonly HoldPoint[]): ShortestTests {
  const tests = proofTests(points);
  const index = new Map(points.map(({ id }, n) => [id, n]));
  const sets = tests.map(({ clears, minutes: cost }) => ({
    items: new Set(clears.map((id) => index.get(id) as number)),
    cost,
  }));
  const { chosen, exact } = fewestSets(points.length, sets);
  return { tests: chosen.map((n) => tests[n]), exact };
}

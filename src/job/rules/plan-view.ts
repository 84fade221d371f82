// A plan made ready for the rules: parts by id, and each load with the channel before it and the drivers behind it.
import { driversIn, partOfTerminal } from '../../plan/networks.ts';
import { kindOf, type PartKind, type PartOf, type Plan, partsOf } from '../../plan/plan.ts';
import type { coverStates } from '../../plan/vehicle-parts.ts';
import { coverLetters, type DrawnVehicle } from '../covers/cover-letters.ts';
import { emptyRecord, type JobRecord } from './job-record.ts';

/** From processor channel to drivers. What is not planned yet is absent. */
export interface Lane {
  load: PartOf<'load'>;
  amplifier?: PartOf<'amplifier'>;
  /** The amplifier's channel that drives the load. */
  output?: NonNullable<PartOf<'amplifier'>['channels']>[number];
  /** Processor channels that feed it; one, if all is well. */
  channels: PartOf<'channel'>[];
  drivers: PartOf<'driver'>[];
}

export interface PlanView {
  plan: Plan;
  /** The part of that kind and id. */
  part: <Kind extends PartKind>(kind: Kind, id: string | undefined) => PartOf<Kind> | undefined;
  lanes: Lane[];
  /** Lanes by the id of a driver in them. */
  lanesOf: (driver: string) => Lane[];
  /** Readings of a part, those that count; `stale` ones rest on what has changed since. */
  readings: (of: string, quantity: PartOf<'reading'>['quantity']) => PartOf<'reading'>[];
  fusesOf: (run: string) => PartOf<'fuse'>[];
  /** Runs that start at a part. */
  runsFrom: (part: string) => PartOf<'run'>[];
  runsTo: (part: string) => PartOf<'run'>[];
  /** Ids of the covers that are marked for closing or fastened. */
  coversClosed: ReadonlySet<string>;
  takes: readonly RecordedTake[];
  /** What kind of vehicle it is, where the job says so. */
  body: string | undefined;
  /** How a cover of the plan is in a list of states, which may call it by its letter or by its id. */
  coverIn: <State extends { cover: string }>(states: readonly State[], cover: string) => State | undefined;
  /** The letter of a cover of the plan, where it has one. */
  letterOf: (cover: string) => string | undefined;
  /** What the job knows beside the plan. */
  record: JobRecord;
}

/** A take that counts, and how the covers were, by their letters; one that is not mentioned was never touched. */
export interface RecordedTake {
  id: string;
  name: string;
  covers: readonly { cover: string; state: (typeof coverStates)[number] }[];
}

/** What is known of the job beside its plan. */
export interface Circumstances {
  /** Covers that the job says are fastened, by their letters. */
  coversClosed?: readonly string[];
  /** Readings that no longer count. */
  readingsStale?: readonly string[];
  takes?: readonly RecordedTake[];
  /** The body of the vehicle, such as "hatchback". */
  body?: string | undefined;
  /** Side of the steering wheel. */
  steering?: DrawnVehicle['steering'];
  record?: JobRecord;
}

function grouped<Item>(items: readonly Item[], keysOf: (item: Item) => readonly (string | undefined)[]) {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    for (const key of keysOf(item)) {
      if (key === undefined) continue;
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [item]);
      else group.push(item);
    }
  }
  return (key: string): Item[] => groups.get(key) ?? [];
}

/** `plan` with everything that rules look up, found once. */
export function planView(plan: Plan, circumstances: Circumstances = {}): PlanView {
  const { coversClosed = [], readingsStale = [], takes = [], record = emptyRecord } = circumstances;
  const byId = new Map([...partsOf(plan)].map(({ kind, part }) => [`${kind} ${part.id}`, part]));
  const part = <Kind extends PartKind>(kind: Kind, id: string | undefined) =>
    byId.get(`${kind} ${id}`) as PartOf<Kind> | undefined;
  const feeding = grouped(plan.channel, ({ amplifier }) => [amplifier]);
  const lanes = plan.load.map((load): Lane => {
    const amplifier = load.amplifier === undefined ? undefined : part('amplifier', partOfTerminal(load.amplifier));
    const output = amplifier?.channels?.find(({ id }) => `${amplifier.id}/${id}` === load.amplifier);
    const ends = [load.amplifier, load.bridgedWith].filter((end) => end !== undefined);
    const ids = load.network === undefined ? [] : driversIn(load.network);
    return {
      load,
      ...(amplifier === undefined ? {} : { amplifier }),
      ...(output === undefined ? {} : { output }),
      channels: ends.flatMap(feeding),
      drivers: ids.flatMap((id) => part('driver', id) ?? []),
    };
  });
  const stale = new Set(readingsStale);
  const counting = plan.reading.filter(({ id }) => !stale.has(id));
  const letters = coverLetters(plan.cover, circumstances);
  const coverIn = <State extends { cover: string }>(states: readonly State[], cover: string) =>
    states.findLast((known) => known.cover === cover || known.cover === letters.get(cover));
  const fastened = coversClosed.map((cover) => ({ cover }));
  const closed = (cover: string) =>
    coverIn(fastened, cover) !== undefined || coverIn(record.covers, cover)?.state === 'fastened';
  const readings = grouped(counting, ({ of, quantity }) => [`${quantity} ${of}`]);
  return {
    plan,
    part,
    lanes,
    lanesOf: grouped(lanes, ({ drivers }) => drivers.map(({ id }) => id)),
    readings: (of, quantity) => readings(`${quantity} ${of}`),
    fusesOf: grouped(plan.fuse, ({ run }) => [run]),
    runsFrom: grouped(plan.run, ({ from }) => [from]),
    runsTo: grouped(plan.run, ({ to }) => [to]),
    coversClosed: new Set(plan.cover.filter(({ id, closing }) => closing || closed(id)).map(({ id }) => id)),
    takes,
    body: circumstances.body,
    coverIn,
    letterOf: (cover) => letters.get(cover),
    record,
  };
}

/** "run R1": the kind of a part in words and its id; an id that no part has stands alone. */
export function placeOf(plan: Plan, id: string): string {
  const kind = kindOf(plan, partOfTerminal(id));
  return kind === null ? id : `${kind === 'holdPoint' ? 'hold point' : kind} ${id}`;
}

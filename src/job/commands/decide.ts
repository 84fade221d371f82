// From a wish to entries, or to the reason why not. Nothing is written here.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import type { Sha256 } from '../chain.ts';
import type { Entry, JsonObject } from '../entries.ts';
import { type EntryData, type EntryKind, entryVersions, vehiclePersonalKinds } from '../entry-kinds.ts';
import type { Journal } from '../journal.ts';
import { type PersonalRecord, personalHash } from '../personal.ts';
import { personalReferences } from '../projections/personal-references.ts';
import { isUndoable } from '../undo.ts';
import { checkMade } from './check-wishes.ts';
import type { Command, CommandName, CommandOf, Request } from './commands.ts';
import { coversChanged } from './cover-wishes.ts';
import { evidenceGiven } from './evidence-wishes.ts';
import { changesTold, findingToOverride, partSet, templateChanges } from './plan-wishes.ts';

/** What a decision needs from outside: the clock's time, who writes, chance that was drawn before, and a hash. */
export interface Provided {
  when: string;
  device: string;
  /** Names and salts for personal records, one for each kind at least; used only if needed. */
  fresh: readonly { record: string; salt: string }[];
  sha256: Sha256;
}

/** What is to be written, all of it or nothing. */
export interface Decision {
  entries: Entry[];
  /** Personal records that the entries refer to. */
  records: PersonalRecord[];
  /** Personal records whose content goes. */
  erase: string[];
}

interface Fact<Kind extends EntryKind = EntryKind> {
  kind: Kind;
  data: EntryData<Kind>;
}

interface Outcome {
  fact: Fact;
  records?: PersonalRecord[];
  erase?: string[];
}

function fact<Kind extends EntryKind>(kind: Kind, data: EntryData<Kind>): Result<Outcome> {
  return success({ fact: { kind, data } as unknown as Fact });
}

function refuse(code: string, message: string, mend: string, where?: string): Result<never> {
  const issue: Issue = { code, message, mend };
  return failure(where === undefined ? issue : { ...issue, where });
}

/** What the wish says, without its name. */
function dataOf<Name extends CommandName>(wish: CommandOf<Name>): Omit<CommandOf<Name>, 'command'> {
  const { command: _, ...data } = wish;
  return data;
}

type Decider<Name extends CommandName> = (
  journal: Journal,
  wish: CommandOf<Name>,
  request: Request,
  provided: Provided,
) => Result<Outcome>;

const deciders: { [Name in CommandName]: Decider<Name> } = {
  createJob: (_, wish) => fact('job-created', dataOf(wish)),
  renameJob: (_, wish) => fact('job-renamed', dataOf(wish)),
  describeVehicle,
  changeCovers: ({ state }, wish) => {
    const changed = coversChanged(state, wish);
    return changed.ok ? fact('covers-changed', changed.value) : changed;
  },
  giveEvidence: ({ state }, wish) => {
    const given = evidenceGiven(state, wish);
    return given.ok ? fact('evidence-given', given.value) : given;
  },
  keepTrack: (_, wish) => fact('track-made', dataOf(wish)),
  recordTake: ({ state }, wish, request) => {
    const { take = request.id, covers, level, ...rest } = dataOf(wish);
    if (state.takes.some((known) => known.take === take)) {
      return refuse(
        'take-exists',
        'There is a take of this name already.',
        'Give the new take an id of its own.',
        take,
      );
    }
    const microphone = state.microphones.find((known) => known.microphone === wish.microphone);
    const splDb = microphone?.fullScaleSplDb;
    return fact('take-recorded', {
      ...rest,
      take,
      covers: covers ?? state.covers.map(({ cover, state: now }) => ({ cover, state: now })),
      level: level ?? (splDb === undefined ? { reference: 'full-scale' } : { reference: 'spl', fullScaleSplDb: splDb }),
    });
  },
  noteTake: (journal, wish) => unknownTake(journal, [wish.take]) ?? fact('take-noted', dataOf(wish)),
  compareTakes: (journal, wish) => unknownTake(journal, wish.takes) ?? fact('take-compared', dataOf(wish)),
  calibrateMicrophone: (_, wish) => fact('microphone-calibrated', dataOf(wish)),
  attachPhoto: (_, wish) => fact('photo-attached', dataOf(wish)),
  recordCheck: ({ state }, wish, _, { fresh, sha256 }) => {
    const made = checkMade(state, wish, fresh[0], sha256);
    if (!made.ok) return made;
    const { data, records } = made.value;
    return success({ fact: { kind: 'checked', data }, records });
  },
  addNote: (_, wish) => fact('note-added', dataOf(wish)),
  setPlanPart: ({ state }, { part, id, value }, { seen }) => {
    const set = partSet(part, id, value);
    return set.ok ? planFact(changesTold(state.plan, [set.value], seen)) : set;
  },
  removePlanPart: ({ state }, { part, id }, { seen }) =>
    planFact(changesTold(state.plan, [{ part, id, value: null }], seen)),
  changePlan: ({ state }, { changes }, { seen }) => planFact(changesTold(state.plan, changes, seen)),
  startPlanFromTemplate: ({ state }, wish, { seen }) => planFact(templateChanges(state.plan, wish, seen)),
  overrideFinding: ({ state }, wish) => {
    const found = findingToOverride(state, wish);
    return found.ok ? fact('finding-overridden', found.value) : found;
  },
  hearSound: ({ state }, { sound }) => {
    const { channel } = state.plan.parts;
    const strange =
      sound.how === 'played' ? sound.channels.find((id) => !channel.some((known) => known.id === id)) : undefined;
    if (strange === undefined) return fact('sound-heard', { sound });
    return refuse('channel-unknown', 'The plan has no such channel.', 'Name channels as the plan has them.', strange);
  },
  undo: ({ entries, withdrawn }, wish) => {
    const target = entries.get(wish.entry);
    if (target === undefined) {
      return refuse('entry-unknown', 'The job has no such entry.', 'Give the id of one of its entries.', wish.entry);
    }
    if (!isUndoable(target)) {
      const message = `An entry of kind ${target.kind} cannot be taken back.`;
      return refuse('not-undoable', message, 'Add an entry that says what holds now.', wish.entry);
    }
    if (withdrawn.has(wish.entry)) {
      const mend = 'To have it back, undo the entry that took it back.';
      return refuse('undone-already', 'This entry was taken back before.', mend, wish.entry);
    }
    return fact('undone', dataOf(wish));
  },
  erasePersonal: ({ entries, state }, wish) => {
    const held = [...personalReferences(entries.values()).keys()].filter((id) => !state.erasedRecords.includes(id));
    const records = wish.records ?? held;
    const unknown = records.find((id) => !held.includes(id));
    if (unknown !== undefined) {
      const mend = 'Nothing is left to erase under this name.';
      return refuse('record-unknown', 'The job has no such personal record.', mend, unknown);
    }
    if (records.length === 0) {
      return refuse('nothing-to-erase', 'Nothing is known of a person here.', 'Nothing needs to be done.');
    }
    const data: EntryData<'personal-erased'> = wish.why === undefined ? { records } : { records, why: wish.why };
    return success({ fact: { kind: 'personal-erased', data }, erase: records });
  },
};

function planFact(data: Result<EntryData<'plan-changed'>>): Result<Outcome> {
  return data.ok ? fact('plan-changed', data.value) : data;
}

function unknownTake({ state }: Journal, takes: readonly string[]): Result<never> | null {
  const unknown = takes.find((take) => !state.takes.some((known) => known.take === take));
  if (unknown === undefined) return null;
  return refuse('take-unknown', 'The job has no such take, or it was taken back.', 'Choose one of its takes.', unknown);
}

function describeVehicle(
  { job }: Journal,
  wish: CommandOf<'describeVehicle'>,
  _: Request,
  { fresh, sha256 }: Provided,
): Result<Outcome> {
  const { owner, plate, phone, ...vehicle } = dataOf(wish);
  const said = { owner, plate, phone };
  const records: PersonalRecord[] = [];
  const personal: NonNullable<EntryData<'vehicle-described'>['personal']> = {};
  vehiclePersonalKinds.forEach((kind, n) => {
    const value = said[kind];
    if (value === undefined) return;
    const { record, salt } = fresh[n];
    records.push({ id: record, job, kind, salt, value });
    personal[kind] = { record, hash: personalHash(salt, value, sha256) };
  });
  if (records.length === 0 && Object.keys(vehicle).length === 0) {
    return refuse('nothing-said', 'Nothing is said of the vehicle.', 'Give its body, its name, or whose it is.');
  }
  const data = records.length > 0 ? { ...vehicle, personal } : vehicle;
  return success({ fact: { kind: 'vehicle-described', data }, records });
}

/**
 * What a wish comes to in a job as it stands.
 *
 * Only `createJob` opens a job, and only once. A request whose id the journal has is not for here: it was carried out.
 */
export function decide(journal: Journal, request: Request, provided: Provided): Result<Decision> {
  const { wish } = request;
  const open = journal.state.created !== null;
  if (open && wish.command === 'createJob') {
    return refuse('job-exists', 'This job is there already.', 'Give the new job an id of its own.', journal.job);
  }
  if (!open && wish.command !== 'createJob') {
    return refuse('job-unknown', 'There is no such job.', 'Create it first.', journal.job);
  }
  const decider = deciders[wish.command] as Decider<CommandName>;
  const outcome = decider(journal, wish as Command & CommandOf<CommandName>, request, provided);
  if (!outcome.ok) return outcome;
  const { fact: decided, records = [], erase = [] } = outcome.value;
  const entry: Entry = {
    id: request.id,
    job: journal.job,
    device: provided.device,
    sequence: (journal.sequences.get(provided.device) ?? 0) + 1,
    when: request.when ?? provided.when,
    who: request.who,
    kind: decided.kind,
    version: entryVersions[decided.kind],
    data: decided.data as unknown as JsonObject,
  };
  return success({ entries: [entry], records, erase });
}

// Journals for tests, told as what people did: entries of made-up people and vehicles, with clock and ids counted up.
import { createHash } from 'node:crypto';
import type { Result } from '../../src/base/result.ts';
import { chained, emptyHead } from '../../src/job/chain.ts';
import type { Command } from '../../src/job/commands/commands.ts';
import { type Decision, decide, type Provided } from '../../src/job/commands/decide.ts';
import type { ChainedEntry, Entry, JsonObject } from '../../src/job/entries.ts';
import { journalOf } from '../../src/job/journal.ts';
import type { PersonalRecord } from '../../src/job/personal.ts';

export const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');

/** A time `minutes` after the workshop opened. */
export const at = (minutes: number) => new Date(Date.UTC(2026, 2, 4, 8, minutes)).toISOString();

/** Any content has a hash; this is one for a name. */
export const fileNamed = (name: string) => sha256(`file ${name}`);

export function provided(minutes: number, device = 'bench'): Provided {
  return {
    when: at(minutes),
    device,
    fresh: [0, 1, 2].map((n) => ({
      record: `record-${device}-${minutes}-${n}`,
      salt: sha256(`${device} ${minutes} ${n}`).slice(0, 32),
    })),
    sha256,
  };
}

/** An entry written by hand, for what no command makes. */
export function entry(id: string, kind: string, data: JsonObject, more: Partial<Entry> = {}): Entry {
  return { id, job: 'j1', device: 'bench', sequence: 1, when: at(0), who: 'Ann', kind, version: 1, data, ...more };
}

/** A job as people work on it: each wish becomes entries, one a minute, with ids e1, e2, ... */
export class Bench {
  readonly entries: Entry[] = [];
  readonly records: PersonalRecord[] = [];
  private minutes = 0;
  private readonly job: string;
  private readonly device: string;

  constructor(job = 'j1', device = 'bench') {
    this.job = job;
    this.device = device;
  }

  /** What the wish comes to, without doing it. */
  decided(wish: Command, id = `e${this.entries.length + 1}`): Result<Decision> {
    const journal = journalOf(this.job, this.entries);
    return decide(journal, { id, who: 'Ann', wish }, provided(this.minutes, this.device));
  }

  does(...wishes: Command[]): this {
    for (const wish of wishes) {
      this.minutes++;
      const decision = this.decided(wish);
      if (!decision.ok) throw new Error(`${wish.command} was refused: ${decision.issues[0].message}`);
      this.entries.push(...decision.value.entries);
      this.records.push(...decision.value.records);
    }
    return this;
  }

  get state() {
    return journalOf(this.job, this.entries).state;
  }

  get chain(): ChainedEntry[] {
    return chained(this.entries, emptyHead, sha256);
  }
}

export const openJob: Command = { command: 'createJob', name: 'Four door speakers', purpose: 'car' };

export function takeOf(name: string, more: object = {}): Command {
  return {
    command: 'recordTake',
    name,
    recording: fileNamed(`recording ${name}`),
    bytes: 1000,
    track: fileNamed('track'),
    ...more,
  };
}

// What a step of the hunt is.
import { ENGINE_RUNS, huntTests, type TestName } from './tried.ts';

export type Hunted = 'whine' | 'hum' | 'fixed tone' | 'hiss' | 'pops';

/** Takes that a hunt goes by. */
export type TakeRole = 'off' | 'idle' | 'revs' | 'systemOff' | 'engineAlone' | 'turnOn' | 'turnOff';

export type Entry =
  | 'measuring set-up'
  | 'alternator'
  | 'source'
  | 'charger'
  | 'antenna'
  | 'ground loop'
  | 'signal leads'
  | 'processor'
  | 'before the amplifier'
  | 'amplifier supply or ground'
  | 'amplifier'
  | 'shared path of a consumer'
  | 'not known yet';

export interface HuntStep {
  /** What is being hunted; null where nothing is, or nothing can be yet. */
  hunted: Hunted | null;
  /** Where it enters, as far as the answers go. */
  entry: Entry;
  /** The test whose answer comes next; null where the next thing is a take, or a repair. */
  test: TestName | null;
  /** The take to record next; null where none is. */
  record: TakeRole | null;
  next: string;
  reason: string;
  /** What each answer of the test will say. */
  outcomes: { answer: string; says: string }[];
  cautions: string[];
}

/** A step that asks for a test. */
export function asking(hunted: Hunted, entry: Entry, test: TestName, reason: string): HuntStep {
  const { question, outcomes, cautions } = huntTests[test];
  const running = hunted === 'whine' || test === 'alternatorRippleMv' || test === 'groundDifferenceMv';
  return {
    hunted,
    entry,
    test,
    record: null,
    next: question,
    reason,
    outcomes,
    cautions: running ? [ENGINE_RUNS, ...cautions] : cautions,
  };
}

/** Power and ground leads are worked on only with the battery off. */
export const BATTERY_OFF =
  'Before a power or ground lead is opened: main fuse out, battery negative off and insulated, rings and watches off.';

/** A step that ends the search: what to mend. */
export function mending(hunted: Hunted, entry: Entry, next: string, reason: string, cautions: string[] = []): HuntStep {
  return { hunted, entry, test: null, record: null, next, reason, outcomes: [], cautions };
}

const withEngine: readonly TakeRole[] = ['idle', 'revs', 'engineAlone'];

/** A step that asks for a take. */
export function recording(hunted: Hunted | null, role: TakeRole, next: string, reason: string): HuntStep {
  const cautions = withEngine.includes(role) ? [ENGINE_RUNS] : [];
  return { hunted, entry: 'not known yet', test: null, record: role, next, reason, outcomes: [], cautions };
}

// The takes of a hunt as they were given: what is wrong with the call, and each take read.
import type { Issue } from '../../base/result.ts';
import type { Recording } from '../../signals/recording.ts';
import type { TakeRole } from './hunt-step.ts';
import type { HuntTakes } from './paired-tones.ts';
import { type TakeNoise, takeNoise } from './take-noise.ts';

/** One take as it was given. */
export interface GivenTake {
  recording: Recording;
  /** Counted from 0; default 0. */
  channel?: number | undefined;
  /** Speed of the crankshaft; absent: not known. */
  rpm?: number | undefined;
}

export type GivenTakes = Partial<Record<TakeRole, GivenTake>>;

/** Takes of steady noise. */
export const NOISE_ROLES = ['off', 'idle', 'revs', 'systemOff', 'engineAlone'] as const;
export const POP_ROLES = ['turnOn', 'turnOff'] as const;
const LEAST_APART = 1.05;

/** What is wrong with the call itself. */
export function wrongWith(given: GivenTakes): Issue[] {
  const issues: Issue[] = [];
  const roles = Object.entries(given) as [TakeRole, GivenTake | undefined][];
  if (!roles.some(([role, take]) => take && role !== 'systemOff' && role !== 'engineAlone')) {
    const mend = 'Give one with the engine off, at idle or at raised revs, or one over turning on or off.';
    issues.push({ code: 'no-take', message: 'There is no take to hunt in.', mend });
  }
  for (const [role, take] of roles) {
    if (!take) continue;
    const { channel = 0, rpm, recording } = take;
    if (!(channel >= 0 && channel < recording.channels)) {
      const message = `The take has ${recording.channels} input${recording.channels === 1 ? '' : 's'}; input ${channel + 1} is not among them.`;
      issues.push({
        code: 'input-missing',
        message,
        where: role,
        mend: `Choose an input from 1 to ${recording.channels}.`,
      });
    }
    if (rpm !== undefined && !(rpm >= 100 && rpm <= 20_000)) {
      const mend = 'Give turns a minute from 100 to 20000, or none where they are not known.';
      issues.push({ code: 'rpm-out-of-range', message: `${rpm} rpm is no engine speed.`, where: role, mend });
    }
  }
  const [idle, revs] = [given.idle?.rpm, given.revs?.rpm];
  if (idle !== undefined && revs !== undefined && issues.length === 0 && revs < idle * LEAST_APART) {
    const message = `Raised revs of ${revs} rpm are not 5 % above the idle of ${idle} rpm.`;
    const mend = 'Give the take at the lower speed as the idle, or record at 1500 to 2500 rpm.';
    issues.push({ code: 'speeds-too-close', message, where: 'revs', mend });
  }
  return issues;
}

/** Readings of the takes that can be used, and of the others too. */
export function readTakes(given: GivenTakes): Partial<Record<TakeRole, TakeNoise>> {
  return Object.fromEntries(
    NOISE_ROLES.flatMap((role) => {
      const take = given[role];
      return take ? [[role, takeNoise(take.recording, take.channel ?? 0)]] : [];
    }),
  );
}

/** Those of them that tones are looked for in. */
export function usableTakes(given: GivenTakes, read: Partial<Record<TakeRole, TakeNoise>>): HuntTakes {
  const usable = (role: TakeRole) => (read[role]?.spectrum ? read[role] : undefined);
  const atSpeed = (role: 'idle' | 'revs') => {
    const noise = usable(role);
    return noise && { noise, rpm: given[role]?.rpm ?? null };
  };
  return {
    off: usable('off'),
    idle: atSpeed('idle'),
    revs: atSpeed('revs'),
    systemOff: usable('systemOff'),
    engineAlone: usable('engineAlone'),
  };
}

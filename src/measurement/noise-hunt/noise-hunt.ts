// The noise hunt: takes and answers in; what is heard, what it comes from, where it enters and what to do next out.
import { failure, type Result, success } from '../../base/result.ts';
import { type GivenTakes, NOISE_ROLES, POP_ROLES, readTakes, usableTakes, wrongWith } from './given-takes.ts';
import { type HissFound, hissFound } from './hiss-aim.ts';
import type { Hunted, HuntStep, TakeRole } from './hunt-step.ts';
import { huntVerdict } from './hunt-verdict.ts';
import { type HuntedTone, huntedTones } from './hunted-tones.ts';
import { type HuntFacts, huntedNoise, nextStep } from './next-step.ts';
import { type NoisePath, noisePath } from './noise-path.ts';
import { alternatorProduct, type SpeedSource } from './order-tracking.ts';
import { foundPops, type Pop } from './pops.ts';
import type { TakeProblem } from './take-noise.ts';
import type { Tried } from './tried.ts';

export interface HuntOptions {
  /** How the speeds are known; `needle` allows 3 % and finds their ratio itself. Default `counter`. */
  rpmFrom?: SpeedSource | undefined;
  /** What full scale stands for, dB SPL; absent: levels stay relative to full scale. */
  fullScaleSplDb?: number | undefined;
  tried?: Tried | undefined;
  /** What the person hears, where it is not what the takes show. */
  heard?: Hunted | undefined;
}

/** A take as it was read; levels as `reference` says, null where the take cannot be used. */
export interface HuntedTake {
  take: TakeRole;
  rpm: number | null;
  durationS: number;
  usable: boolean;
  problem: TakeProblem | null;
  aWeightedDb: number | null;
  hissDb: number | null;
  octaves: { fHz: number; levelDb: number }[];
}

export type LevelledTone = Omit<HuntedTone, 'levelDbfs' | 'bandNoiseDbfs'> & { levelDb: number; bandNoiseDb: number };

export interface NoiseHunt {
  verdict: string;
  /** What levels are relative to: sound pressure, or a full-scale square. */
  reference: 'spl' | 'full-scale';
  takes: HuntedTake[];
  /** The loudest first. */
  tones: LevelledTone[];
  /** Pulley ratio times pole pairs of the alternator, from its loudest ripple; null where none was found. */
  alternatorRatioTimesPolePairs: number | null;
  hiss: (Omit<HissFound, 'hissDbfs' | 'standsOut' | 'loud'> & { hissDb: number }) | null;
  pops: (Omit<Pop, 'levelDbfs'> & { take: 'turnOn' | 'turnOff'; levelDb: number; atLeast: boolean })[];
  next: HuntStep;
  path: NoisePath;
  cannotSay: { what: string; why: string }[];
}

function notSaid(given: GivenTakes, tones: readonly HuntedTone[], hiss: HissFound | null, spl: boolean) {
  const cannotSay: NoiseHunt['cannotSay'] = [];
  for (const { why } of tones.filter((tone) => tone.class === 'cannot tell')) {
    const what = 'what a tone comes from';
    if (!cannotSay.some((said) => said.what === what && said.why === why)) cannotSay.push({ what, why });
  }
  if (!hiss && !given.off) {
    cannotSay.push({ what: 'whether the hiss keeps to the aim', why: 'There is no take with the engine off.' });
  }
  if (hiss?.verdict === 'cannot say') cannotSay.push({ what: 'whether the hiss keeps to the aim', why: hiss.why });
  if (!spl)
    cannotSay.push({ what: 'levels at the ear', why: 'Levels are relative: what full scale stands for is not known.' });
  return cannotSay;
}

/**
 * Hunts a noise: reads the takes, classes their tones, judges the hiss, finds pops, and says what to do next and why.
 *
 * All takes are made with nothing playing, the microphone in one place and the recording level untouched. Each is
 * optional; one with the engine off, at idle, at raised revs, or over turning on or off there must be.
 *
 * @param given    takes by role: `off` engine off, system on; `idle`; `revs` 1500 to 2500 rpm; `systemOff` engine and
 *   system off; `engineAlone` idling, system off; `turnOn`, `turnOff`
 * @returns what was found; what the takes do not carry is null, 'cannot tell' or 'cannot say' with its reason; or issues:
 *   no-take, input-missing, rpm-out-of-range, speeds-too-close
 * Accuracy: tones within 0.5 Hz, orders within 1 %, A-weighted levels within 0.1 dB (test/vectors/noise.json)
 * Source: own method; alternator orders by derivation (three phases, six-pulse rectifier), see `trackedTones`.
 */
export function noiseHunt(given: GivenTakes, options: HuntOptions = {}): Result<NoiseHunt> {
  const issues = wrongWith(given);
  if (issues.length > 0) return failure(...issues);
  const { rpmFrom = 'counter', fullScaleSplDb, tried = {}, heard } = options;
  const spl = fullScaleSplDb ?? 0;
  const read = readTakes(given);
  const takes = usableTakes(given, read);
  const tones = huntedTones(takes, rpmFrom);
  const hiss = hissFound(takes.off, takes.systemOff, fullScaleSplDb);
  const popsIn = POP_ROLES.flatMap((role) => {
    const take = given[role];
    return take ? [{ role, ...foundPops(take.recording, take.channel ?? 0), take }] : [];
  });
  const problems = [
    ...NOISE_ROLES.flatMap((role) => {
      const problem = read[role]?.problem;
      return problem ? [{ role, problem }] : [];
    }),
    ...popsIn.flatMap(({ role, problem }) => (problem ? [{ role, problem }] : [])),
  ];
  const has = Object.fromEntries(
    [...NOISE_ROLES, ...POP_ROLES].map((role) => [
      role,
      given[role] !== undefined && !problems.some((problem) => problem.role === role),
    ]),
  ) as HuntFacts['has'];
  const pops = popsIn.flatMap(({ role, pops: list, clipped }) =>
    list.map(({ levelDbfs, ...pop }) => ({ ...pop, take: role, levelDb: levelDbfs + spl, atLeast: clipped })),
  );
  const speedsNoted = [given.idle?.rpm, given.revs?.rpm].every((rpm) => rpm !== undefined);
  const facts: HuntFacts = { tones, hiss, pops: pops.length, has, problems, speedsNoted, tried, heard };
  const next = nextStep(facts);
  const hunted = huntedNoise(facts);
  const usable = Object.values(has).filter(Boolean).length;
  return success({
    verdict: huntVerdict(next, hunted, tones, { hiss, pops: pops.length, usable }),
    reference: fullScaleSplDb === undefined ? 'full-scale' : 'spl',
    takes: [
      ...NOISE_ROLES.flatMap((role): HuntedTake[] => {
        const noise = read[role];
        if (!noise) return [];
        const { durationS, problem, aWeightedDbfs, hissDbfs, octaves } = noise;
        return [
          {
            take: role,
            rpm: given[role]?.rpm ?? null,
            durationS,
            usable: has[role],
            problem,
            aWeightedDb: aWeightedDbfs === null ? null : aWeightedDbfs + spl,
            hissDb: hissDbfs === null ? null : hissDbfs + spl,
            octaves: octaves.map(({ fHz, levelDbfs }) => ({ fHz, levelDb: levelDbfs + spl })),
          },
        ];
      }),
      ...popsIn.map(({ role, problem, take: { recording } }): HuntedTake => {
        const durationS = recording.frames / recording.rateHz;
        const unread = { rpm: null, aWeightedDb: null, hissDb: null, octaves: [] };
        return { take: role, durationS, usable: has[role], problem, ...unread };
      }),
    ],
    tones: tones.map(({ levelDbfs, bandNoiseDbfs, ...tone }) => ({
      ...tone,
      levelDb: levelDbfs + spl,
      bandNoiseDb: bandNoiseDbfs + spl,
    })),
    alternatorRatioTimesPolePairs: alternatorProduct(tones),
    hiss: hiss && {
      verdict: hiss.verdict,
      hissDb: hiss.hissDbfs + spl,
      overSystemOff: hiss.overSystemOff,
      why: hiss.why,
    },
    pops,
    next,
    path: noisePath(tried, next.test),
    cannotSay: notSaid(given, tones, hiss, fullScaleSplDb !== undefined),
  });
}

// What a factory source really gives at each output and volume step: what of it must be undone, and what cannot be.
import { thirdOctaves } from '../grids.ts';
import { passBand } from '../pass-band.ts';
import type { OutputResponse } from './output-response.ts';
import type { FactorySource, OutputReading, SourceSum, StepReading } from './source-answer.ts';
import { outputFindings, togetherFindings } from './source-findings.ts';

/** One output at one volume step; outputs of one take share its time line. */
export interface SourceTake {
  take: string;
  output: string;
  step: number;
  response: OutputResponse;
}

/** Outputs further apart than this do not disturb each other, dB. */
const ALIKE_DB = 12;
const EDGE_OCTAVES = 1 / 3;

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];

/** Power mean of what is known in each third octave. */
function thirdsOf({ fHz, levelDb }: OutputResponse): { fHz: number[]; levelDb: (number | null)[] } {
  const thirds = thirdOctaves(fHz[0], fHz[fHz.length - 1]);
  return {
    fHz: thirds,
    levelDb: thirds.map((centre) => {
      const inside = fHz.flatMap((f, i) => {
        const level = levelDb[i];
        return Math.abs(Math.log2(f / centre)) <= 1 / 6 && level !== null ? [10 ** (level / 10)] : [];
      });
      return inside.length === 0
        ? null
        : 10 * Math.log10(inside.reduce((sum, power) => sum + power, 0) / inside.length);
    }),
  };
}

function readOutput(
  output: string,
  takes: readonly SourceTake[],
  earliestS: ReadonlyMap<string, number>,
): OutputReading {
  const ordered = [...takes].sort((a, b) => a.step - b.step);
  const readable = ordered.filter(({ response }) => response.reason === null);
  const steps = ordered.map(({ step, take, response }): StepReading => {
    const known = response.levelDb.filter((level): level is number => level !== null);
    const top = Math.max(...known);
    const loud = known.filter((level) => level > top - ALIKE_DB);
    return { step, take, reason: response.reason, levelDb: loud.length === 0 ? null : median(loud) };
  });
  const none: OutputReading = {
    output,
    side: null,
    steps,
    lowHz: null,
    highHz: null,
    shape: { fHz: [], levelDb: [] },
    delayMs: null,
    phase: null,
    withVolume: null,
  };
  if (readable.length === 0) return none;
  const [first] = readable;
  const { response } = first;
  const band = passBand(response.fHz, response.levelDb);
  const low = (band.lowHz ?? response.fHz[0]) * 2 ** EDGE_OCTAVES;
  const high = (band.highHz ?? response.fHz[response.fHz.length - 1]) / 2 ** EDGE_OCTAVES;
  const thirds = thirdsOf(response);
  const inside = thirds.fHz.flatMap((f, i) => {
    const level = thirds.levelDb[i];
    return f >= low && f <= high && level !== null ? [{ f, level }] : [];
  });
  const middle = inside.length === 0 ? 0 : median(inside.map(({ level }) => level));
  const earliest = earliestS.get(first.take);
  return {
    ...none,
    side: response.side,
    lowHz: band.lowHz,
    highHz: band.highHz,
    shape: { fHz: inside.map(({ f }) => f), levelDb: inside.map(({ level }) => level - middle) },
    delayMs: earliest === undefined ? null : 1000 * (response.startS - earliest),
    phase: response.phase,
    withVolume: readable.length < 2 ? null : volumeChange(first, readable[readable.length - 1]),
  };
}

function volumeChange(quiet: SourceTake, loud: SourceTake): OutputReading['withVolume'] {
  const [before, after] = [thirdsOf(quiet.response), thirdsOf(loud.response)];
  const changes = before.fHz.flatMap((f, i) => {
    const [one, other] = [before.levelDb[i], after.levelDb[i]];
    return one === null || other === null || other === undefined ? [] : [{ f, db: other - one }];
  });
  if (changes.length < 3) return null;
  const middle = median(changes.map(({ db }) => db));
  return {
    fromStep: quiet.step,
    toStep: loud.step,
    fHz: changes.map(({ f }) => f),
    changeDb: changes.map(({ db }) => db - middle),
  };
}

/** What the outputs of one take give together, against what they would in step. */
function sumOf(take: string, members: readonly SourceTake[]): SourceSum | null {
  const heard = members.filter(({ response }) => response.reason === null);
  if (heard.length < 2) return null;
  const { fHz } = heard[0].response;
  const points = fHz.flatMap((f, i) => {
    const sizes = heard.map(({ response }) => Math.hypot(response.re[i], response.im[i]));
    const most = Math.max(...sizes);
    const alike = sizes.map((size) => size > most * 10 ** (-ALIKE_DB / 20));
    if (alike.filter(Boolean).length < 2) return [];
    const sum = (part: 're' | 'im') => heard.reduce((total, { response }) => total + response[part][i], 0);
    const inStep = sizes.reduce((total, size) => total + size, 0);
    return [{ f, db: 20 * Math.log10(Math.max(1e-6, Math.hypot(sum('re'), sum('im')) / inStep)) }];
  });
  return {
    take,
    outputs: heard.map(({ output }) => output),
    fHz: points.map(({ f }) => f),
    lossDb: points.map(({ db }) => db),
  };
}

const verdictWords: Record<FactorySource['verdict'], string> = {
  clean: 'Flat, in step and the same at every volume that was recorded: nothing needs undoing.',
  'to-undo': 'Everything that was found can be undone behind the source.',
  'not-to-undo': 'Some of what was found cannot be undone behind the source.',
  'cannot-say': 'No output could be read.',
};

/** What the outputs of a factory source give; pure: the same takes give the same answer. */
export function factorySource(takes: readonly SourceTake[]): FactorySource {
  const byTake = new Map<string, SourceTake[]>();
  for (const take of takes) byTake.set(take.take, [...(byTake.get(take.take) ?? []), take]);
  const earliestS = new Map<string, number>();
  const sums: SourceSum[] = [];
  for (const [take, members] of byTake) {
    const starts = members.flatMap(({ response }) => (response.reason === null ? [response.startS] : []));
    if (starts.length > 1) earliestS.set(take, Math.min(...starts));
    const sum = sumOf(take, members);
    if (sum !== null) sums.push(sum);
  }
  const names = [...new Set(takes.map(({ output }) => output))];
  const outputs = names.map((name) =>
    readOutput(
      name,
      takes.filter(({ output }) => output === name),
      earliestS,
    ),
  );
  const findings = [...outputs.flatMap(outputFindings), ...togetherFindings(outputs, sums)];
  const heard = outputs.some(({ steps }) => steps.some(({ levelDb }) => levelDb !== null));
  const bad = findings.filter(({ what }) => what !== 'unread');
  const verdict = !heard
    ? 'cannot-say'
    : bad.length === 0
      ? 'clean'
      : bad.every(({ undo }) => undo === 'yes')
        ? 'to-undo'
        : 'not-to-undo';
  return { outputs, sums, findings, verdict, says: verdictWords[verdict] };
}

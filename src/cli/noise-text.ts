// A noise hunt in words: the verdict, what was measured, and the one thing to do next.
import type { TakeRole } from '../measurement/noise-hunt/hunt-step.ts';
import type { HuntedTake, LevelledTone, NoiseHunt } from '../measurement/noise-hunt/noise-hunt.ts';
import { dashed, sampleAnswer } from './noise-options.ts';
import type { TextStyle } from './output.ts';
import { wrapped } from './wrap.ts';

const takeWords: Record<TakeRole, string> = {
  off: 'engine off',
  idle: 'idle',
  revs: 'raised revs',
  systemOff: 'system off',
  engineAlone: 'idle, system off',
  turnOn: 'turning on',
  turnOff: 'turning off',
};

/** Rows as columns, the first to the left and numbers to the right. */
function table(rows: string[][], left: number[]): string[] {
  const widths = rows[0].map((_, n) => Math.max(...rows.map((row) => row[n].length)));
  return rows.map((row) =>
    `  ${row.map((cell, n) => (left.includes(n) ? cell.padEnd(widths[n]) : cell.padStart(widths[n]))).join('  ')}`.trimEnd(),
  );
}

const one = (value: number | null): string => (value === null ? '-' : value.toFixed(1));
const whole = (value: number | null): string => (value === null ? '-' : value.toFixed(0));

function takeLines(takes: HuntedTake[], unit: string, width: number): string[] {
  const rows = takes.map(({ take, rpm, durationS, aWeightedDb, hissDb, octaves }) => [
    takeWords[take],
    whole(rpm),
    `${durationS.toFixed(1)} s`,
    one(aWeightedDb),
    one(hissDb),
    ...[1000, 2000, 4000, 8000].map((fHz) => one(octaves.find((octave) => octave.fHz === fHz)?.levelDb ?? null)),
  ]);
  const head = ['take', 'rpm', 'length', 'A-weighted', 'hiss', '1 kHz', '2 kHz', '4 kHz', '8 kHz'];
  const problems = takes.flatMap(({ take, problem }) =>
    problem ? wrapped(`  ${takeWords[take]}: ${problem.message} (${problem.code})`, width, 4) : [],
  );
  return [`Levels (${unit}; hiss is A-weighted without tones)`, ...table([head, ...rows], [0]), ...problems];
}

function toneLines(tones: LevelledTone[], unit: string): string[] {
  if (tones.length === 0) return [];
  const heard = ({ audible, carsOwn, mayBeEngine }: LevelledTone) => {
    if (carsOwn === true) return "the car's own";
    return audible ? (mayBeEngine ? 'yes, or the engine itself' : 'yes') : 'no';
  };
  const rows = tones.map((tone) => [
    one(tone.offHz),
    one(tone.idleHz),
    one(tone.revsHz),
    one(tone.order),
    tone.class,
    one(tone.levelDb),
    one(tone.bandNoiseDb),
    one(tone.overNoiseDb),
    heard(tone),
  ]);
  const head = ['off', 'idle', 'revs', 'order', 'comes from', 'tone', 'noise', 'over', 'heard'];
  return ['', `Tones (Hz; tone against the noise of its third octave, ${unit})`, ...table([head, ...rows], [4, 8])];
}

function popLines({ pops }: NoiseHunt, width: number): string[] {
  if (pops.length === 0) return [];
  return [
    '',
    'Pops',
    ...pops.flatMap(({ take, atS, durationS, levelDb, overNoiseDb, atLeast }) =>
      wrapped(
        `  ${takeWords[take]}, at ${atS.toFixed(2)} s: ${atLeast ? 'at least ' : ''}${levelDb.toFixed(1)} dB, ${overNoiseDb.toFixed(0)} dB over the noise around it, ${Math.round(1000 * durationS)} ms long`,
        width,
        4,
      ),
    ),
  ];
}

function nextLines({ next }: NoiseHunt, width: number): string[] {
  const { test, record } = next;
  const answer =
    test !== null
      ? [`  Then give the answer: --tried ${dashed(test)}=${sampleAnswer(test)}`]
      : record !== null
        ? [`  Then give the take: --${dashed(record)} FILE.wav`]
        : [];
  return [
    '',
    'Next',
    ...wrapped(`  ${next.next}`, width, 2),
    ...wrapped(`  Why: ${next.reason}`, width, 7),
    ...next.outcomes.flatMap(({ answer, says }) => wrapped(`  If ${answer}: ${says}`, width, 6)),
    ...next.cautions.flatMap((caution) => wrapped(`  Caution: ${caution}`, width, 4)),
    ...answer,
  ];
}

/** The hunt for a person, `style.width` columns wide at most but for its tables. */
export function noiseText(hunt: NoiseHunt, { width }: TextStyle): string {
  const unit = hunt.reference === 'spl' ? 'dB SPL' : 'dB re full scale, relative';
  const tried = hunt.path.cuts.filter(({ heard }) => heard !== null).length > 0;
  const suspects = hunt.path.stages.flatMap(({ stage, suspect }) => (suspect ? [stage] : []));
  const unsaid = hunt.cannotSay.filter(({ why }) => why !== hunt.hiss?.why);
  const lines = [
    ...wrapped(hunt.verdict, width),
    '',
    ...takeLines(hunt.takes, unit, width),
    ...toneLines(hunt.tones, unit),
    ...(hunt.hiss ? ['', ...wrapped(`Hiss: ${hunt.hiss.verdict}. ${hunt.hiss.why}`, width, 2)] : []),
    ...popLines(hunt, width),
    ...(tried && suspects.length > 0
      ? ['', ...wrapped(`Still under suspicion: ${suspects.join(', ')}.`, width, 2)]
      : []),
    ...nextLines(hunt, width),
    ...(unsaid.length > 0 ? ['', 'Not said, and why'] : []),
    ...unsaid.flatMap(({ what, why }) => wrapped(`  ${what}: ${why}`, width, 4)),
  ];
  return `${lines.join('\n')}\n`;
}

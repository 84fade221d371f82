// The options of `track`, and the request that a call makes with them.
import { failure, type Issue, type Result, success } from '../base/result.ts';
import { relationWishes, type TrackRequest, trackKinds, trackRatesHz } from '../signals/track-design/request.ts';
import type { WavSampleFormat } from '../signals/wav/wav-header.ts';
import type { CommandContext, CommandOption } from './command.ts';
import { nearestWord } from './nearest-word.ts';
import { type NumberRule, numberValue, wordValue } from './option-values.ts';

const sides = ['left', 'right', 'both'] as const;
const bitChoices = ['16', '24', '32f'] as const;

export const trackOptions: CommandOption[] = [
  { name: 'out', value: 'F.wav', meaning: 'the track to write; F.track.json beside it describes it' },
  { name: 'side', value: 'SIDE', meaning: 'left, right or both: where the stimulus plays', default: 'both' },
  {
    name: 'marker-side',
    value: 'SIDE',
    meaning: 'left, right, both or none: where the time markers play',
    default: 'the side opposite to a one-sided stimulus, else both',
  },
  {
    name: 'level',
    value: 'DBFS',
    meaning: 'the highest peak anywhere in the track',
    default: '-20; unproven bursts -30',
  },
  { name: 'from', value: 'HZ', meaning: 'lower band limit', default: '20' },
  { name: 'to', value: 'HZ', meaning: 'upper band limit', default: '20000, or what the rate carries' },
  {
    name: 'seconds',
    value: 'S',
    meaning: 'length of one stimulus',
    default: 'sweeps by band: 6 full range and sub, 4 midbass, 3 mid, 2 tweeter; noise 11, tone 20, ladder 2',
  },
  { name: 'repeat', value: 'N', meaning: 'how often each stimulus plays', default: '1; ladder 12' },
  {
    name: 'levels',
    value: 'FROM:TO:STEP',
    meaning: 'steps and ladder: rising levels in dBFS, such as -30:-6:3, or a list such as -36,-30,-24',
    default: 'steps: 24, 20, 16, 12, 9, 6, 3 and 0 dB under --level; ladder: one level',
  },
  {
    name: 'tones',
    value: 'HZ,HZ',
    meaning: 'tone and ladder: the tones; bursts: the middle of the band of each proven output',
    default: '1000; bursts: 2000, for leads that nobody has proven',
  },
  {
    name: 'relation',
    value: 'WORD',
    meaning: 'noise between the sides: same, opposite, independent, or both: same, then opposite',
    default: 'same',
  },
  { name: 'outputs', value: 'N', meaning: 'bursts: outputs to count through', default: 'one per tone, else 8' },
  {
    name: 'marker-band',
    value: 'LOW-HIGH',
    meaning: 'band of the markers; a mid plays 500-3000',
    default: '4000-12000, or 500-3000 where the driver on test must play them',
  },
  { name: 'seed', value: 'N', meaning: 'chooses the noise and the irregular distances', default: '1' },
  { name: 'code', value: 'N', meaning: 'track code, 0 to 255', default: 'follows from the rest' },
  { name: 'rate', value: 'HZ', meaning: 'samples per second', default: '48000' },
  { name: 'bits', value: '16|24|32f', meaning: 'bits of a sample', default: '24' },
];

/** What a call asks for. */
export interface TrackCall {
  request: TrackRequest;
  wavPath: string;
  format: WavSampleFormat;
}

/** The option that a field of the request came from. */
const optionOfField: Record<string, string> = {
  kind: 'KIND',
  rateHz: '--rate',
  fromHz: '--from',
  toHz: '--to',
  stimulusS: '--seconds',
  levelDbfs: '--level',
  levelsDbfs: '--levels',
  side: '--side',
  markerSide: '--marker-side',
  markerBandHz: '--marker-band',
  repeats: '--repeat',
  seed: '--seed',
  tonesHz: '--tones',
  relation: '--relation',
  outputs: '--outputs',
  code: '--code',
};

/** Issues about fields of a request, said of the options that gave them. */
export function issuesOfOptions(issues: Issue[]): Issue[] {
  return issues.map((found) => {
    const where = found.where === undefined ? undefined : optionOfField[found.where];
    return where === undefined ? found : { ...found, where };
  });
}

const hz: NumberRule = { min: 5, max: 86_400, unit: 'Hz' };
const dbfs: NumberRule = { min: -80, max: 0, unit: 'dBFS' };
const whole = (min: number, max: number): NumberRule => ({ min, max, whole: true });

/** The request of a call, or everything in it that cannot be understood. */
export function trackCall({ operands, given }: Pick<CommandContext, 'operands' | 'given'>): Result<TrackCall> {
  const issues: Issue[] = [];
  const value = <T>(name: string, read: (text: string) => Result<T>): T | undefined => {
    const text = given(name);
    if (text === undefined) return undefined;
    const result = read(text);
    if (result.ok) return result.value;
    issues.push(...result.issues);
    return undefined;
  };
  const number = (name: string, rule: NumberRule) => value(name, (text) => numberValue(name, text, rule));
  const word = <W extends string>(name: string, words: readonly W[]) =>
    value(name, (text) => wordValue(name, text, words));
  const kind = kindOf(operands, issues);
  const wavPath = wavPathOf(given('out'), issues);
  const rate = word('rate', trackRatesHz.map(String));
  const format = word('bits', bitChoices) ?? '24';
  const request: TrackRequest = {
    kind: kind ?? 'sweep',
    rateHz: Number(rate ?? 48_000),
    fromHz: number('from', hz),
    toHz: number('to', hz),
    stimulusS: number('seconds', { min: 0.2, max: 600, unit: 's' }),
    levelDbfs: number('level', dbfs),
    levelsDbfs: value('levels', levelsOf),
    side: word('side', sides),
    markerSide: word('marker-side', [...sides, 'none'] as const),
    markerBandHz: value('marker-band', markerBandOf),
    repeats: number('repeat', whole(1, 1000)),
    seed: number('seed', whole(0, 4_294_967_295)),
    tonesHz: value('tones', (text) => numbersOf('tones', text, hz)),
    relation: word('relation', relationWishes),
    outputs: number('outputs', whole(1, 32)),
    code: number('code', whole(0, 255)),
  };
  return issues.length > 0 || wavPath === undefined ? failure(...issues) : success({ request, wavPath, format });
}

function kindOf(operands: string[], issues: Issue[]): TrackRequest['kind'] | undefined {
  const [text, ...more] = operands;
  const kind = trackKinds.find((known) => known === text);
  const kinds = `The kinds: ${trackKinds.join(', ')}.`;
  if (text === undefined) {
    issues.push({ code: 'kind-missing', message: 'What kind of track is to be made?', where: 'KIND', mend: kinds });
  } else if (kind === undefined) {
    const near = nearestWord(text, trackKinds);
    const mend = near === null ? kinds : `Did you mean ${near}? ${kinds}`;
    issues.push({ code: 'unknown-kind', message: `There is no track kind "${text}".`, where: text, mend });
  }
  if (more.length > 0) {
    const mend = 'Give one kind; everything else is an option.';
    issues.push({ code: 'too-many-arguments', message: 'track makes one track at a time.', where: more[0], mend });
  }
  return kind;
}

function wavPathOf(out: string | undefined, issues: Issue[]): string | undefined {
  const mend = 'Give it as --out F.wav.';
  if (out === undefined) {
    issues.push({ code: 'out-missing', message: 'Where is the track to be written?', where: '--out', mend });
  } else if (!/[^/\\]\.wav$/i.test(out)) {
    issues.push({ code: 'not-a-wav-name', message: `A track is a WAV file, got "${out}".`, where: '--out', mend });
  } else return out;
  return undefined;
}

function numbersOf(option: string, text: string, rule: NumberRule): Result<number[]> {
  const results = text.split(',').map((part) => numberValue(option, part, rule));
  const issues = results.flatMap((result) => (result.ok ? [] : result.issues));
  return issues.length > 0
    ? failure(...issues.slice(0, 1))
    : success(results.flatMap((result) => (result.ok ? [result.value] : [])));
}

/** The lower limit stands first; whether markers can lie there is not for the words to say. */
function markerBandOf(text: string): Result<{ from: number; to: number }> {
  const parts = numbersOf('marker-band', text.replace('-', ','), hz);
  if (parts.ok && parts.value.length === 2) return success({ from: parts.value[0], to: parts.value[1] });
  const message = `--marker-band must be two frequencies with "-" between them, got "${text}".`;
  const mend = 'Give it as --marker-band 500-3000.';
  return failure({ code: 'bad-option-value', message, where: '--marker-band', mend });
}

/** `FROM:TO:STEP`, ending at the last level that does not pass TO, or a list. */
function levelsOf(text: string): Result<number[]> {
  const parts = text.split(':');
  if (parts.length === 1) return numbersOf('levels', text, dbfs);
  const [from, to] = parts.map((part) => numberValue('levels', part, dbfs));
  const step = numberValue('levels', parts[2] ?? '', { min: 0.1, max: 60, unit: 'dB' });
  if (parts.length !== 3 || !from.ok || !to.ok || !step.ok || to.value <= from.value) {
    const message = `--levels must be FROM:TO:STEP in dBFS, rising, got "${text}".`;
    const mend = 'Give it as --levels -30:-6:3, or as a list such as --levels -36,-30,-24.';
    return failure({ code: 'bad-option-value', message, where: '--levels', mend });
  }
  const count = Math.floor((to.value - from.value) / step.value + 1e-9) + 1;
  // Rounding takes the binary dust off sums such as -30 + 3 x 0.1.
  return success(Array.from({ length: count }, (_, n) => Number((from.value + n * step.value).toFixed(6))));
}

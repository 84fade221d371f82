// `source`: what a factory radio or amplifier really gives at each output and volume step, and what of it can be undone.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { factorySource, type SourceTake } from '../../measurement/factory-source/factory-source.ts';
import { outputResponses } from '../../measurement/factory-source/output-response.ts';
import type { FactorySource, OutputReading } from '../../measurement/factory-source/source-answer.ts';
import type { TrackDescription } from '../../signals/track.ts';
import type { Command, CommandContext, CommandOutcome } from '../command.ts';
import { numberValue } from '../option-values.ts';
import type { TextStyle } from '../output.ts';
import { readTrackFile } from '../track-file.ts';
import { openWavFile } from '../wav-file.ts';
import { twoColumns, wrapped } from '../wrap.ts';

const CALL =
  'kickpanel source --track F.track.json "front left,front right@12=a.wav" "front left,front right@24=b.wav"';

/** Stands for an input of the recorder that is to be left out. */
const NO_OUTPUT = '-';

interface NamedTake {
  /** One an input of the recorder, in their order; a single one stands for the input that hears the track. */
  outputs: string[];
  step: number;
  file: string;
}

/** `OUTPUT,OUTPUT@STEP=REC.wav`. */
function namedTake(operand: string): Result<NamedTake> {
  const equals = operand.indexOf('=');
  const at = operand.lastIndexOf('@', equals);
  const outputs = operand
    .slice(0, Math.max(at, 0))
    .split(',')
    .map((name) => name.trim());
  if (equals < 0 || at < 1 || equals === operand.length - 1 || outputs.includes('')) {
    const message = `"${operand}" is not outputs, a volume step and their recording.`;
    return failure({ code: 'bad-take', message, where: operand, mend: `Call it as: ${CALL}` });
  }
  const named = outputs.filter((name) => name !== NO_OUTPUT);
  const twice = named.find((name, i) => named.indexOf(name) !== i);
  if (twice !== undefined || named.length === 0) {
    const message = twice === undefined ? 'It names no output.' : `"${twice}" is named twice.`;
    return failure({
      code: 'bad-take',
      message,
      where: operand,
      mend: 'Name each output once, in the order of the inputs.',
    });
  }
  const step = numberValue('step', operand.slice(at + 1, equals), { min: -200, max: 1000 });
  if (!step.ok)
    return failure(...step.issues.map((issue) => ({ ...issue, where: operand, mend: `Call it as: ${CALL}` })));
  return success({ outputs, step: step.value, file: operand.slice(equals + 1) });
}

function readNamed(take: NamedTake, track: TrackDescription, number: number): Result<SourceTake[]> {
  const { outputs, step, file } = take;
  const wav = openWavFile(file);
  if (!wav.ok) return wav;
  try {
    const { recording } = wav.value;
    if (outputs.length > 1 && outputs.length !== recording.channels) {
      const message = `The recording has ${recording.channels} inputs; ${outputs.length} outputs are named.`;
      const mend = `Name an output for each input, "${NO_OUTPUT}" for one to leave out.`;
      return failure({ code: 'inputs-differ', message, where: file, mend });
    }
    const inputs = outputs.length === 1 ? null : outputs.flatMap((name, i) => (name === NO_OUTPUT ? [] : [i]));
    const responses = outputResponses(recording, track, inputs);
    const named = outputs.filter((name) => name !== NO_OUTPUT);
    return success(named.map((output, i) => ({ take: `${number}`, output, step, response: responses[i] })));
  } finally {
    wav.value.close();
  }
}

function takesOf({ operands, onProgress }: CommandContext, track: TrackDescription): Result<SourceTake[]> {
  const issues: Issue[] = [];
  const named = operands.flatMap((operand) => {
    const take = namedTake(operand);
    if (take.ok) return [take.value];
    issues.push(...take.issues);
    return [];
  });
  if (operands.length === 0) {
    const message = 'source needs at least one recording.';
    issues.push({ code: 'argument-missing', message, mend: `Call it as: ${CALL}` });
  }
  const seen = new Set<string>();
  for (const { outputs, step, file } of named) {
    for (const output of outputs) {
      if (output !== NO_OUTPUT && seen.has(`${output} ${step}`)) {
        const message = `"${output}" has two recordings at step ${step}.`;
        issues.push({ code: 'output-twice', message, where: file, mend: 'Give one for each output and step.' });
      }
      seen.add(`${output} ${step}`);
    }
  }
  if (issues.length > 0) return failure(...issues);
  const takes = named.flatMap((take, i) => {
    onProgress(i / named.length, `reading ${take.file}`);
    const read = readNamed(take, track, i + 1);
    if (read.ok) return read.value;
    issues.push(...read.issues);
    return [];
  });
  return issues.length > 0 ? failure(...issues) : success(takes);
}

const db = (value: number): string => `${value < 0 ? '-' : ''}${Math.abs(value).toFixed(1)} dB`;
const hz = (value: number): string => `${Number(value.toPrecision(2))} Hz`;

function bandWords({ lowHz, highHz }: OutputReading): string {
  if (lowHz === null) return highHz === null ? 'the whole band' : `nothing over ${hz(highHz)}`;
  return highHz === null ? `nothing under ${hz(lowHz)}` : `${hz(lowHz)} to ${hz(highHz)}`;
}

function outputRows(reading: OutputReading): [string, string] {
  const { output, side, steps, delayMs } = reading;
  const levels = steps.map(({ step, levelDb }) => `${levelDb === null ? 'not read' : db(levelDb)} at step ${step}`);
  if (side === null) return [output, levels.join(', ')];
  const time = delayMs === null ? 'recorded alone, so its time is not known' : `${delayMs.toFixed(2)} ms late`;
  return [output, [levels.join(', '), bandWords(reading), `fed by ${side}`, time].join('; ')];
}

function textOf({ outputs, findings, says }: FactorySource, style: TextStyle): string {
  const told = findings.flatMap(({ what, says: found, mend, undo }) => {
    const can = { yes: 'Can be undone: ', 'in-part': 'Can be undone in part: ', no: 'Cannot be undone: ' }[undo];
    return ['', ...wrapped(`${found} ${what === 'unread' ? '' : can}${mend}`, style.width)];
  });
  return `${[...wrapped(says, style.width), '', ...twoColumns(outputs.map(outputRows), style.width), ...told].join('\n')}\n`;
}

function run(context: CommandContext): CommandOutcome {
  const file = context.given('track');
  if (file === undefined) {
    const message = 'source needs the description of the track that was playing.';
    return {
      status: 2,
      issues: [{ code: 'option-missing', message, where: '--track', mend: `Call it as: ${CALL}` }],
    };
  }
  const track = readTrackFile(file);
  if (!track.ok) return { status: 2, issues: track.issues };
  const takes = takesOf(context, track.value);
  if (!takes.ok) return { status: 2, issues: takes.issues };
  const answer = factorySource(takes.value);
  return {
    status: answer.verdict === 'cannot-say' || answer.verdict === 'not-to-undo' ? 1 : 0,
    answer: { schema: 'kickpanel.source/1', ...answer },
    text: (style) => textOf(answer, style),
  };
}

export const command: Command = {
  name: 'source',
  summary:
    'read the outputs of a factory source at two or three volumes: shape, corners, delay, phase, and what can be undone',
  usage: 'source --track F.track.json OUTPUT,OUTPUT@STEP=REC.wav ...',
  details:
    'Record the outputs electrically, one an input of the recorder and all at once, at two or three volume steps, the recorder’s gain the same throughout. Outputs that are recorded one by one have no common time, so their delay and sum stay unknown. Speaker outputs are never joined to ground: most stand on half the battery’s voltage; use a differential adaptor or an isolating one, and a divider of 20 to 1, and check with a meter that no direct voltage is left before a recorder is plugged in. Drivers unplugged or the volume low: the sweep covers all frequencies. Status 1: something cannot be undone, or nothing could be read.',
  options: [
    { name: 'track', value: 'F.track.json', meaning: 'the description of the track that was playing (needed)' },
  ],
  example: 'kickpanel source --track sweep.track.json left,right@12=low.wav',
  run,
};

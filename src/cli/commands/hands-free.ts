// `hands-free`: from a call recorded at its far end, whether the car sends back what was said to it.
import { failure, type Result, success } from '../../base/result.ts';
import { callEcho } from '../../measurement/hands-free/call-echo.ts';
import type { Recording } from '../../signals/recording.ts';
import type { Command, CommandContext, CommandOutcome } from '../command.ts';
import { numberValue } from '../option-values.ts';
import { openWavFile } from '../wav-file.ts';
import { wrapped } from '../wrap.ts';

const CALL = 'kickpanel hands-free call.wav, or kickpanel hands-free said.wav received.wav';

interface Asked {
  files: [sent: string, received: string];
  sentInput: number;
  receivedInput: number;
  gainDb: number;
}

function askedOf({ operands, given }: CommandContext): Result<Asked> {
  const [sent, received = sent, ...more] = operands;
  if (sent === undefined || more.length > 0) {
    const message = 'hands-free needs one recording of both ways of a call, or one of each.';
    return failure({ code: 'argument-missing', message, mend: `Call it as: ${CALL}` });
  }
  const input = (name: string, usual: number) =>
    numberValue(name, given(name) ?? `${usual}`, { min: 1, max: 64, whole: true });
  const sentInput = input('said-input', 1);
  const receivedInput = input('received-input', operands.length === 1 ? 2 : 1);
  const gain = numberValue('gain', given('gain') ?? '0', { min: -100, max: 100, unit: 'dB' });
  if (!sentInput.ok || !receivedInput.ok || !gain.ok) {
    return failure(...[sentInput, receivedInput, gain].flatMap((part) => (part.ok ? [] : part.issues)));
  }
  return success({
    files: [sent, received],
    sentInput: sentInput.value,
    receivedInput: receivedInput.value,
    gainDb: gain.value,
  });
}

function run(context: CommandContext): CommandOutcome {
  const asked = askedOf(context);
  if (!asked.ok) return { status: 2, issues: asked.issues };
  const { files, sentInput, receivedInput, gainDb } = asked.value;
  const opened = files.map(openWavFile);
  try {
    const issues = opened.flatMap((wav) => (wav.ok ? [] : wav.issues));
    const [sent, received] = opened;
    if (!sent.ok || !received.ok) return { status: 2, issues: issues.slice(0, files[0] === files[1] ? 1 : 2) };
    const way = (recording: Recording, input: number, file: string, option: string) =>
      input <= recording.channels
        ? success({ recording, input: input - 1 })
        : failure({
            code: 'no-such-input',
            message: `The recording has ${recording.channels === 1 ? 'one input' : `${recording.channels} inputs`}, not ${input}.`,
            where: file,
            mend: `Give --${option}, or a recording of each way of the call.`,
          });
    const one = way(sent.value.recording, sentInput, files[0], 'said-input');
    const other = way(received.value.recording, receivedInput, files[1], 'received-input');
    if (!one.ok || !other.ok) {
      return { status: 2, issues: [one, other].flatMap((part) => (part.ok ? [] : part.issues)) };
    }
    const echo = callEcho(one.value, other.value, gainDb);
    return {
      status: echo.status === 'no-echo' ? 0 : 1,
      answer: { schema: 'kickpanel.hands-free/1', ...echo },
      text: (style) => `${wrapped(echo.says, style.width).join('\n')}\n`,
    };
  } finally {
    for (const wav of opened) if (wav.ok) wav.value.close();
  }
}

export const command: Command = {
  name: 'hands-free',
  summary: 'read a call recorded at its far end: does the car send back what was said to it, how late and how loud',
  usage: 'hands-free CALL.wav | SAID.wav RECEIVED.wav',
  details:
    'Call the car from outside, with the volume in the car as it will be used and nobody speaking there. Read a page aloud, half a minute and more, and record both ways of the call at the calling end with one gain: what is said on the first input, what comes back on the second, or one file each, begun at one time. Nobody drives while a call is tested. Status 1: the far end hears itself, or it cannot be said.',
  options: [
    { name: 'said-input', value: 'N', meaning: 'the input with what was said, counted from 1', default: '1' },
    {
      name: 'received-input',
      value: 'N',
      meaning: 'the input with what came back',
      default: '2, or 1 of its own file',
    },
    { name: 'gain', value: 'DB', meaning: 'how much more what came back was amplified', default: '0' },
  ],
  example: 'kickpanel hands-free call.wav',
  run,
};

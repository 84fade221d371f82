// The inputs of a calculation, from a file or from stdin, as data.
import { readSync } from 'node:fs';
import { refused } from '../../base/refusal.ts';
import { failure, type Result, success } from '../../base/result.ts';
import { textFromBytes } from '../../measurement/calibration-text.ts';
import { readTextFile } from '../text-file.ts';

const maxBytes = 20e6;

const mend = 'Give the inputs as {"calc": "wireArea", "awg": 4}; --list shows what there is.';

/** All of stdin, or why it cannot be had. A pipe that has nothing yet is asked again. */
function readStdin(): Result<string> {
  const parts: Uint8Array[] = [];
  let size = 0;
  const buffer = new Uint8Array(1 << 16);
  for (;;) {
    let count = 0;
    try {
      count = readSync(0, buffer);
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === 'EAGAIN') {
        Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 10);
        continue;
      }
      if (code !== 'EOF') return refused('missing', 'stdin', `stdin could not be read (${code}).`, 'Give a FILE.');
    }
    if (count === 0) break;
    size += count;
    if (size > maxBytes) {
      const message = `More than the ${maxBytes / 1e6} MB that inputs can need came in.`;
      return failure({ code: 'file-too-large', message, where: 'stdin', mend: 'Check that this is the right file.' });
    }
    parts.push(buffer.slice(0, count));
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return success(textFromBytes(whole));
}

/** The object of inputs in JSON text: as it is, or inside `{"inputs": ...}`. */
export function inputsIn(text: string, where: string): Result<Record<string, unknown>> {
  if (text.trim() === '') return refused('missing', where, 'Nothing was given.', mend);
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return failure({ code: 'not-json', message: 'This is not JSON.', where, mend });
  }
  const isObject = (value: unknown): value is Record<string, unknown> =>
    typeof value === 'object' && value !== null && !Array.isArray(value);
  if (isObject(data) && !Object.hasOwn(data, 'calc') && isObject(data.inputs)) data = data.inputs;
  return isObject(data) ? success(data) : refused('missing', where, 'This is no object of inputs.', mend);
}

/** Reads FILE, or stdin when it is `-` or not given. */
export function givenInputs(file: string | undefined): Result<Record<string, unknown>> {
  const fromStdin = file === undefined || file === '-';
  const text = fromStdin ? readStdin() : readTextFile(file, maxBytes);
  return text.ok ? inputsIn(text.value, fromStdin ? 'stdin' : file) : text;
}

import { expect, test } from 'vitest';
import { recordingFromArrays } from './recording.ts';
import { recordingPart } from './recording-part.ts';

const ramp = Array.from({ length: 10 }, (_, i) => i);
const whole = recordingFromArrays([ramp, ramp.map((x) => -x)], 8000, 2 ** -15);

const read = (part: ReturnType<typeof recordingPart>, start: number, length: number, channel = 0): number[] => {
  const out = new Float64Array(length).fill(9);
  part.readChannel(channel, start, length, out);
  return [...out];
};

test('a part counts its frames from its own first, and reads as 0 outside', () => {
  const part = recordingPart(whole, 3, 4);
  expect([part.frames, part.rateHz, part.channels, part.bits]).toEqual([4, 8000, 2, 16]);
  expect(read(part, 0, 4)).toEqual([3, 4, 5, 6]);
  expect(read(part, 1, 2, 1)).toEqual([-4, -5]);
  expect(read(part, -2, 8)).toEqual([0, 0, 3, 4, 5, 6, 0, 0]);
  expect(read(part, 20, 3)).toEqual([0, 0, 0]);
});

test('a part that reaches over the ends holds what there is', () => {
  expect(recordingPart(whole, -5, 8).frames).toBe(3);
  expect(read(recordingPart(whole, 8, 50), 0, 3)).toEqual([8, 9, 0]);
  expect(recordingPart(whole, 30, 5).frames).toBe(0);
});

test('what is no number is counted inside alone', () => {
  const counted = recordingPart({ ...whole, notFinite: (_, start, length) => 1000 * start + length }, 3, 4);
  expect(counted.notFinite?.(0, -2, 4)).toBe(3002);
  expect(recordingPart(whole, 0, 5).notFinite?.(0, 0, 5)).toBe(0);
});

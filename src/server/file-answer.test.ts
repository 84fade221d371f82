import { expect, test } from 'vitest';
import { byteSourceFromArray } from '../signals/recording.ts';
import { fileAnswer, rangeOf } from './file-answer.ts';

// RFC 9110, section 14.1.2: its examples for a representation of 10 000 bytes.
test.each([
  ['bytes=0-499', { from: 0, to: 500 }],
  ['bytes=500-999', { from: 500, to: 1000 }],
  ['bytes=-500', { from: 9500, to: 10_000 }],
  ['bytes=9500-', { from: 9500, to: 10_000 }],
  ['bytes=0-20000', { from: 0, to: 10_000 }],
  ['bytes=9999-9999', { from: 9999, to: 10_000 }],
  ['bytes=-20000', { from: 0, to: 10_000 }],
  ['bytes=10000-', 'none'],
  ['bytes=-0', 'none'],
  ['bytes=500-400', null],
  ['bytes=0-0,-1', null],
  ['bytes=-', null],
  ['lines=1-2', null],
  [undefined, null],
])('%s asks for %o', (header, range) => {
  expect(rangeOf(header, 10_000)).toEqual(range);
});

/** Compared as bytes: the test runner would look at a million numbers one by one. */
async function isBodyOf(answer: Response, bytes: Uint8Array): Promise<boolean> {
  return Buffer.from(await answer.arrayBuffer()).equals(bytes);
}

function answerTo(headers: Record<string, string>, method = 'GET') {
  let closed = 0;
  const bytes = Uint8Array.from({ length: 1_000_000 }, (_, n) => n & 255);
  const source = { ...byteSourceFromArray(bytes), close: () => void closed++ };
  const answer = fileAnswer(new Request('http://localhost/x', { method, headers }), source, 'audio/wav');
  return { answer, bytes, closed: () => closed };
}

test('sends the whole, a part, or only its size, and closes the file each time', async () => {
  const whole = answerTo({});
  expect(whole.answer.status).toBe(200);
  expect(whole.answer.headers.get('content-length')).toBe('1000000');
  expect(await isBodyOf(whole.answer, whole.bytes)).toBe(true);
  expect(whole.closed()).toBe(1);

  const part = answerTo({ range: 'bytes=300000-899999' });
  expect(part.answer.status).toBe(206);
  expect(part.answer.headers.get('content-range')).toBe('bytes 300000-899999/1000000');
  expect(await isBodyOf(part.answer, part.bytes.subarray(300_000, 900_000))).toBe(true);
  expect(part.closed()).toBe(1);

  const head = answerTo({}, 'HEAD');
  expect(head.answer.headers.get('content-length')).toBe('1000000');
  expect(head.closed()).toBe(1);

  const none = answerTo({ range: 'bytes=1000000-' });
  expect(none.answer.status).toBe(416);
  expect(none.answer.headers.get('content-range')).toBe('bytes */1000000');
  expect(none.closed()).toBe(1);
});

test('a caller who goes away in the middle closes the file too', async () => {
  const { answer, closed } = answerTo({});
  const reader = answer.body?.getReader();
  await reader?.read();
  await reader?.cancel();
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(closed()).toBe(1);
});

import { expect, test } from 'vitest';
import { askFor, known, learned, onChanged, refresh, standing } from './known-answers.ts';

/** A server that answers when it is told to, each question by itself. */
function slowServer() {
  const answers: ((value: unknown) => void)[] = [];
  return {
    ask: () => new Promise<unknown>((resolve) => answers.push(resolve)),
    questions: () => answers.length,
    /** Answers the question of this number, and comes back once the answer has been heard. */
    async answer(question: number, value: unknown) {
      answers[question](value);
      await new Promise((done) => setTimeout(done));
    },
  };
}

test('what an answer tells while a question is on its way is shown, and the question is asked once more', async () => {
  const server = slowServer();
  askFor('overtaken', server.ask);
  await server.answer(0, 'at first');
  const stop = onChanged('overtaken', () => {});
  // Somebody else writes, and the question about it is on its way while the answer to a wish comes in.
  refresh('overtaken');
  learned('overtaken', 'with mine');
  expect(known('overtaken')).toBe('with mine');
  expect(server.questions()).toBe(3);
  // The older answer counts no longer, whatever it says; the newer one does.
  await server.answer(1, 'without mine');
  expect(known('overtaken')).toBe('with mine');
  await server.answer(2, 'with mine and theirs');
  expect(standing('overtaken')).toEqual({ value: 'with mine and theirs', error: undefined, asking: false });
  stop();
});

test('what an answer tells while nothing is asked is all that is to be known: no question follows', async () => {
  const server = slowServer();
  askFor('at rest', server.ask);
  await server.answer(0, 'at first');
  learned('at rest', 'with mine');
  expect(server.questions()).toBe(1);
  expect(standing('at rest')).toEqual({ value: 'with mine', error: undefined, asking: false });
});

test('of two questions the newer one counts, in whichever order they are answered', async () => {
  const server = slowServer();
  const stop = onChanged('twice', () => {});
  askFor('twice', server.ask);
  refresh('twice');
  await server.answer(1, 'newer');
  await server.answer(0, 'older');
  expect(known('twice')).toBe('newer');
  stop();
});

test('what fails leaves what was known, and says that it failed', async () => {
  learned('failing', 'as it was');
  askFor('failing', () => Promise.reject(new Error('away')));
  await new Promise((done) => setTimeout(done));
  expect(known('failing')).toBe('as it was');
  expect(standing('failing').error).toBeDefined();
  expect(standing('failing').asking).toBe(false);
});

// What was tried and heard, each answer to be taken back.
import { type TestName, type Tried, testNames } from '../../measurement/noise-hunt/tried.ts';
import { answerText, testNamesShort } from './hunt-words.ts';

export function TriedList({ tried, onTakeBack }: { tried: Tried; onTakeBack: (test: TestName) => void }) {
  const answered = testNames.flatMap((test) => {
    const answer = tried[test];
    return answer === undefined ? [] : [{ test, answer }];
  });
  if (answered.length === 0) return null;
  return (
    <section aria-labelledby="tried">
      <h2 id="tried" className="h2s">
        Tried so far
      </h2>
      <ul className="tried">
        {answered.map(({ test, answer }) => (
          <li key={test}>
            <span>{testNamesShort[test]}</span>
            <b>{answerText(test, answer)}</b>
            <button type="button" className="linky" onClick={() => onTakeBack(test)}>
              Take back<span className="unseen"> {testNamesShort[test]}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

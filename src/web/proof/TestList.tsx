// The shortest list of tests: what is done, how long it takes, what comes off for it, and how much it clears.
import type { ShortestTests } from '../../job/hold-points/shortest-tests.ts';
import { trueMinus } from '../parts/true-minus.ts';
import { countWords } from '../shop/job-words.ts';
import { minutesWords } from './proof-model.ts';

interface TestListProps {
  shortest: ShortestTests;
  /** Name of a cover of the plan by its id. */
  coverNames: ReadonlyMap<string, string>;
}

export function TestList({ shortest: { tests, exact }, coverNames }: TestListProps) {
  return (
    <>
      <ol className="tests">
        {tests.map(({ id, name, says, minutes, opens, clears }) => (
          <li key={id}>
            <b>{name}</b>
            <span className="took">{minutesWords(minutes)}</span>
            <small>{trueMinus(says)}</small>
            <small className="clears">
              clears {countWords(clears.length, 'point', 'points').toLowerCase()};{' '}
              {opens.length === 0
                ? 'nothing comes off'
                : `off for it: ${opens.map((cover) => coverNames.get(cover) ?? cover).join(', ')}`}
            </small>
          </li>
        ))}
      </ol>
      {exact ? null : <p className="quiet">A shorter list may exist: the largest tests were taken first.</p>}
    </>
  );
}

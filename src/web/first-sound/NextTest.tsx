// The test that tells the explanations apart for the least work: what to do, why, and what may come out of it.
import type { JobWalk, WalkStep } from '../../job/walk/job-walk.ts';
import { outcomeWords, testWords } from '../../wiring/fault-words.ts';

interface NextTestProps {
  walk: JobWalk;
  step: Extract<WalkStep, { do: 'test' }>;
  busy: boolean;
  onOutcome: (test: string, outcome: string) => void;
}

/** Which explanations a result leaves, by their numbers in the list. */
function leaves(explanations: readonly number[]): string {
  const numbers = explanations.map((index) => index + 1);
  if (numbers.length > 6) return `then it is one of ${numbers.length}`;
  return `then it is explanation ${numbers.join(' or ')}`;
}

export function NextTest({ walk: { walk }, step, busy, onOutcome }: NextTestProps) {
  const { test, outcomes } = step.test;
  return (
    <section className="next-test" aria-label="What came out">
      <p className="said">{testWords(walk, test).why} What came out?</p>
      <ul className="cautions" aria-label="Cautions">
        <li>Amplifiers off before a lead is moved; volume right down before they are on again.</li>
      </ul>
      <div className="outcomes">
        {outcomes.map(({ outcome, explanations }) => (
          <button
            key={outcome}
            type="button"
            className="btn wide"
            disabled={busy}
            onClick={() => onOutcome(test, outcome)}
          >
            <span>
              {outcomeWords(walk, outcome)}
              <small>{leaves(explanations)}</small>
            </span>
          </button>
        ))}
      </div>
    </section>
  );
}

// What comes next, why, what it will say, and the answer in one tap.
import { useState } from 'react';
import type { HuntStep } from '../../measurement/noise-hunt/hunt-step.ts';
import { huntTests, type TestName } from '../../measurement/noise-hunt/tried.ts';
import { Field } from '../parts/Field.tsx';
import { trueMinus } from '../parts/true-minus.ts';

interface NextStepProps {
  step: HuntStep;
  busy: boolean;
  onAnswer: (test: TestName, answer: boolean | number) => void;
}

export function NextStep({ step, busy, onAnswer }: NextStepProps) {
  const { test, next, reason, outcomes, cautions } = step;
  const numeric = test !== null && huntTests[test].unit !== undefined;
  return (
    <section className="next-step" aria-labelledby="next-step">
      <h2 id="next-step" className="h2s">
        {test !== null ? 'The next test' : step.record !== null ? 'The next take' : 'What to do'}
      </h2>
      <p className="asks">{trueMinus(next)}</p>
      <p className="why-so">{trueMinus(reason)}</p>
      {cautions.length === 0 ? null : (
        <ul className="hunt-cautions" aria-label="Cautions">
          {cautions.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      )}
      {outcomes.length === 0 ? null : (
        <dl className="will-say">
          {outcomes.map(({ answer, says }) => (
            <div key={answer}>
              <dt>{answer}</dt>
              <dd>{says}</dd>
            </div>
          ))}
        </dl>
      )}
      {test === null ? null : numeric ? (
        <Millivolts key={test} busy={busy} onRead={(value) => onAnswer(test, value)} />
      ) : (
        <div className="row answers">
          {outcomes.map(({ answer }, n) => (
            <button key={answer} type="button" className="btn" disabled={busy} onClick={() => onAnswer(test, n === 0)}>
              {answer.charAt(0).toUpperCase() + answer.slice(1)}
            </button>
          ))}
        </div>
      )}
    </section>
  );
}

function Millivolts({ busy, onRead }: { busy: boolean; onRead: (value: number) => void }) {
  const [typed, setTyped] = useState('');
  const [wrong, setWrong] = useState<string | undefined>(undefined);
  return (
    <form
      className="row answers"
      onSubmit={(event) => {
        event.preventDefault();
        const value = /^\d+([.,]\d+)?$/.test(typed.trim()) ? Number(typed.trim().replace(',', '.')) : Number.NaN;
        if (value <= 100_000) onRead(value);
        else setWrong('A number from 0 to 100000, in mV.');
      }}
    >
      <Field label="The meter reads, mV" wrong={wrong}>
        {(field) => (
          <input
            {...field}
            inputMode="decimal"
            autoComplete="off"
            value={typed}
            onChange={({ target }) => {
              setTyped(target.value);
              setWrong(undefined);
            }}
          />
        )}
      </Field>
      <button type="submit" className="btn" disabled={busy}>
        Keep the reading
      </button>
    </form>
  );
}

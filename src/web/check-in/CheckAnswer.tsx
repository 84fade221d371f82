// One check answered where it stands: a press, a reading, a photo, a take, or words.
import { useState } from 'react';
import { type CheckStage, checkUnits, plainCheckValue } from '../../job/check-in/check-forms.ts';
import type { CheckReport } from '../../job/check-in/check-in.ts';
import type { JobView } from '../api-client.ts';
import { quantities, typedNumber } from '../part-editor/quantity.ts';
import { Field } from '../parts/Field.tsx';
import { TextField } from '../parts/TextField.tsx';
import { foundWords, stageWords } from './check-words.ts';
import { PhotoInput } from './PhotoInput.tsx';
import type { Checking } from './use-check.ts';

interface AnswerProps {
  report: CheckReport;
  at: CheckStage;
  view: JobView;
  checking: Checking;
}

export function CheckAnswer(props: AnswerProps) {
  const { report, at } = props;
  const ways = report.answers[at];
  return (
    <div className="answer">
      {ways.includes('said') ? <Said {...props} /> : null}
      {ways.includes('measured') ? <Reading {...props} /> : null}
      {ways.includes('photo') ? <Photo {...props} /> : null}
      {ways.includes('seen') ? <Seen {...props} /> : null}
      {ways.includes('take') ? <Take {...props} /> : null}
    </div>
  );
}

function Seen({ report, at, checking }: AnswerProps) {
  const [faulty, setFaulty] = useState(false);
  const [words, setWords] = useState('');
  const { check, name } = report;
  const complaint = report.group === 'complaint';
  const labels = complaint ? { ok: 'It is gone', fault: 'It is still there' } : foundWords[at];
  const give = (found: 'ok' | 'fault' | 'not-tried' | 'not-fitted') =>
    void checking
      .found(check, {
        how: 'seen',
        found,
        ...(found === 'fault' && words.trim() !== '' ? { words: words.trim() } : {}),
      })
      .then((kept) => {
        if (!kept) return;
        setFaulty(false);
        setWords('');
      });
  const button = (found: Parameters<typeof give>[0], text: string) => (
    <button
      type="button"
      className="btn"
      disabled={checking.busy}
      aria-label={`${name}: ${text}`}
      onClick={() => give(found)}
    >
      {text}
    </button>
  );
  if (faulty) {
    return (
      <form
        className="faulty"
        onSubmit={(event) => {
          event.preventDefault();
          give('fault');
        }}
      >
        <TextField label={`What is wrong: ${name}`} value={words} maxLength={500} onChange={setWords} />
        <div className="ways">
          <button type="submit" className="btn keep" disabled={checking.busy}>
            Keep the fault
          </button>
          <button type="button" className="btn" onClick={() => setFaulty(false)}>
            Back
          </button>
        </div>
      </form>
    );
  }
  return (
    <div className="ways">
      {button('ok', labels.ok)}
      <button type="button" className="btn" aria-label={`${name}: ${labels.fault}`} onClick={() => setFaulty(true)}>
        {labels.fault}
      </button>
      {report.group === 'sounds' || report.group === 'works' ? button('not-fitted', 'It has none') : null}
      {button('not-tried', 'Not tried')}
    </div>
  );
}

function Reading({ report, checking }: AnswerProps) {
  const { check, name, unit, expected, readings } = report;
  const [text, setText] = useState('');
  const [after, setAfter] = useState('');
  const [shown, setShown] = useState(false);
  const quantity = unit === 'A' ? quantities.amperes : quantities.volts;
  const value = typedNumber(text, quantity);
  const fits = value !== null && value >= 0 && value <= 1000;
  const minutes = after.trim() === '' ? null : typedNumber(after, quantities.number);
  const timed = unit === 'A';
  const example = unit === 'A' ? 'Amperes, such as 0.33 or 24 mA.' : 'Volts, such as 12.58 or 12,58.';
  return (
    <form
      className="reading"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        setShown(true);
        if (!fits || (after.trim() !== '' && (minutes === null || minutes < 0))) return;
        const plain = plainCheckValue(value, unit ?? checkUnits[0]);
        void checking
          .found(check, { how: 'measured', ...plain, ...(minutes === null ? {} : { afterMin: minutes }) })
          .then((kept) => {
            if (!kept) return;
            setText('');
            setAfter('');
            setShown(false);
          });
      }}
    >
      <Field
        label={`${name}, ${unit ?? ''}`}
        hint={
          expected === null ? undefined : (
            <span title={expected.source.says}>
              expected {expected.low} to {expected.high} {expected.unit}, by {expected.source.kind}
            </span>
          )
        }
        wrong={(shown || text.trim() !== '') && !fits ? example : undefined}
      >
        {(field) => (
          <input
            {...field}
            inputMode="decimal"
            autoComplete="off"
            value={text}
            onChange={({ target }) => setText(target.value)}
          />
        )}
      </Field>
      {timed ? (
        <Field
          label="Minutes since locking"
          wrong={after.trim() !== '' && (minutes === null || minutes < 0) ? 'Minutes, such as 10.' : undefined}
        >
          {(field) => (
            <input
              {...field}
              inputMode="decimal"
              autoComplete="off"
              value={after}
              onChange={({ target }) => setAfter(target.value)}
            />
          )}
        </Field>
      ) : null}
      <button type="submit" className="btn keep" disabled={checking.busy} aria-label={`Keep ${name}`}>
        Keep
      </button>
      {timed && readings.arrive.length + readings.refit.length > 1 ? (
        <p className="series">
          Read so far:{' '}
          {[...readings.arrive, ...readings.refit]
            .map(({ value: one, afterMin }) => `${afterMin === null ? '' : `${afterMin} min `}${one} A`)
            .join(', ')}
        </p>
      ) : null}
    </form>
  );
}

function Photo({ report, at, checking }: AnswerProps) {
  const { check, name } = report;
  return (
    <PhotoInput
      label={`Photograph ${name}`}
      busy={checking.busy}
      onPhoto={(file) => void checking.photographed(check, `${name}, ${stageWords[at]}`, file)}
    >
      {report[at]?.found.how === 'photo' ? 'Another photo' : 'Photo'}
    </PhotoInput>
  );
}

function Take({ report, view, checking }: AnswerProps) {
  const takes = view.job.takes.filter(({ kept }) => kept);
  if (takes.length === 0) return <p className="quiet">A take of it can be chosen here once one is recorded.</p>;
  return (
    <Field label={`A take of it: ${report.name}`}>
      {(field) => (
        <select
          {...field}
          value=""
          disabled={checking.busy}
          onChange={({ target }) => void checking.found(report.check, { how: 'take', take: target.value })}
        >
          <option value="">choose one of {takes.length}</option>
          {[...takes].reverse().map(({ take, name }) => (
            <option key={take} value={take}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

function Said({ report, checking }: AnswerProps) {
  const [words, setWords] = useState('');
  return (
    <form
      className="said-words"
      onSubmit={(event) => {
        event.preventDefault();
        if (words.trim() === '') return;
        void checking.found(report.check, { how: 'said', words: words.trim() }).then((kept) => kept && setWords(''));
      }}
    >
      <Field label="What the owner says is wrong" hint="kept apart, so that it can be erased">
        {(field) => (
          <textarea
            {...field}
            rows={3}
            value={words}
            maxLength={2000}
            onChange={({ target }) => setWords(target.value)}
          />
        )}
      </Field>
      <button type="submit" className="btn keep" disabled={checking.busy}>
        Keep these words
      </button>
    </form>
  );
}

// The verdict on the recording comes first: what it is worth, what is wrong, what to do, what cannot be said.
import type { Reading } from '../../measurement/reading.ts';
import { Finding } from '../parts/Finding.tsx';
import { SeverityMark } from '../parts/Severity.tsx';
import { trueMinus } from '../parts/true-minus.ts';
import { readingSeverity, severityWords } from './words.ts';

const problemSeverity = { stop: 'stop', limit: 'fix', note: 'note' } as const;

export function Verdict({ reading }: { reading: Reading }) {
  const severity = readingSeverity(reading);
  return (
    <div className="verd">
      <SeverityMark severity={severity === 'note' ? 'ok' : severity}>{severityWords[severity]}</SeverityMark>
      <p>{severity === 'stop' ? 'No curve is shown: it would mislead.' : trueMinus(reading.quality.verdict)}</p>
    </div>
  );
}

/** Everything that is wrong with a recording, the worst first, each with its remedy. */
export function Problems({ reading }: { reading: Reading }) {
  const { problems } = reading.quality;
  if (problems.length === 0) return null;
  return (
    <div className="findings">
      {problems.map(({ code, severity, message, mend, atS }) => (
        <Finding
          key={`${code} ${atS ?? ''}`}
          severity={problemSeverity[severity]}
          word={severity}
          message={
            <>
              <b>{trueMinus(message)}</b>
              {atS === undefined ? '' : ` At ${atS.toFixed(2)} s.`}
            </>
          }
          mend={mend}
        />
      ))}
    </div>
  );
}

const fieldWords: Record<string, string> = {
  response: 'Response',
  arrivalS: 'Arrival',
  polarity: 'Polarity',
  band: 'Band',
  distortion: 'Distortion',
  bands: 'Bands',
  leftMinusRightS: 'Left after right',
  driftPpm: 'Clock drift',
};

/** What the take does not carry, and why: never a zero in its place. */
export function NotSaid({ reading }: { reading: Reading }) {
  if (reading.withheld.length === 0) return null;
  const byReason = new Map<string, string[]>();
  for (const { field, message } of reading.withheld) {
    byReason.set(message, [...(byReason.get(message) ?? []), fieldWords[field] ?? field]);
  }
  return (
    <section className="not-said" aria-label="Not said, and why">
      <h2 className="h2s">Not said, and why</h2>
      <dl>
        {[...byReason].map(([reason, fields]) => (
          <div key={reason}>
            <dt>{fields.join(', ')}</dt>
            <dd>{trueMinus(`${reason[0].toUpperCase()}${reason.slice(1)}`)}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

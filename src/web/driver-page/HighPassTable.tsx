// What moves with the high-pass: travel, where it is tightest, clean level gained or lost.
import { frequencyText } from '../../charts/number-words.ts';
import { useNumbers } from '../settings.ts';
import type { HighPassRow } from './driver-model.ts';
import { gainText, limitWords, travelText } from './driver-words.ts';

interface HighPassTableProps {
  rows: readonly HighPassRow[];
  order: number;
  looked: number | null;
  onLook: (hz: number | null) => void;
}

export function HighPassTable({ rows, order, looked, onLook }: HighPassTableProps) {
  const style = useNumbers();
  return (
    <section aria-labelledby="moves">
      <h2 id="moves">
        What moves with the high-pass <small>{6 * order} dB per octave</small>
      </h2>
      <table className="moves">
        <thead>
          <tr>
            <th scope="col">From</th>
            <th scope="col" className="num">
              Travel
            </th>
            <th scope="col" className="num">
              Tightest at
            </th>
            <th scope="col" className="num">
              Clean level
            </th>
            <th scope="col">Ends by</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ hz, travelMm, tightestHz, gainDb, limit, planned, withinStroke }) => (
            <tr key={hz ?? 'none'} className={`${hz === looked ? 'on' : ''}${planned ? ' planned' : ''}`}>
              <th scope="row">
                <button type="button" className="linky" aria-pressed={hz === looked} onClick={() => onLook(hz)}>
                  {hz === null ? 'none' : frequencyText(hz, style)}
                </button>
                {planned ? <small>plan</small> : null}
              </th>
              <td className={`num${withinStroke ? '' : ' over'}`}>
                <b>{travelText(travelMm, style)}</b>
                {withinStroke ? null : <span className="unseen">, past its stroke</span>}
              </td>
              <td className="num">{frequencyText(tightestHz, style)}</td>
              <td className="num">{planned ? '\u2014' : gainText(gainDb, style)}</td>
              <td>{limitWords[limit]}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

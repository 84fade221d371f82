// The tones at each speed, what they do when the engine turns faster, and what that makes them.
import { fixedText } from '../../charts/number-words.ts';
import type { NoiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';
import { ScrollBox } from '../parts/ScrollBox.tsx';
import { useNumbers } from '../settings.ts';
import { toneSays } from './hunt-words.ts';
import { moves } from './noise-plot.ts';

const MOST = 12;

export function ToneTable({ hunt }: { hunt: NoiseHunt }) {
  const style = useNumbers();
  const { tones } = hunt;
  if (tones.length === 0) return null;
  const hz = (value: number | null) => (value === null ? '' : fixedText(value, 1, style));
  const hasOff = tones.some(({ offHz }) => offHz !== null);
  return (
    <section aria-labelledby="hunt-tones">
      <h2 id="hunt-tones" className="h2s">
        Tones <small>Hz, the loudest first</small>
      </h2>
      <ScrollBox label="Tones" className="hunt-scroll">
        <table className="hunt-tones">
          <thead>
            <tr>
              {hasOff ? <th className="num">Off</th> : null}
              <th className="num">Idle</th>
              <th className="num">Revs</th>
              <th className="num">Order</th>
              <th className="num">Over, dB</th>
              <th>So</th>
            </tr>
          </thead>
          <tbody>
            {tones.slice(0, MOST).map((tone) => (
              <tr key={`${tone.offHz} ${tone.idleHz} ${tone.revsHz}`} className={moves(tone) ? 'moves' : ''}>
                {hasOff ? <td className="num">{hz(tone.offHz)}</td> : null}
                <td className="num">{hz(tone.idleHz)}</td>
                <td className="num">{hz(tone.revsHz)}</td>
                <td className="num">{tone.order === null ? '' : fixedText(tone.order, 1, style)}</td>
                <td className="num">{fixedText(tone.overNoiseDb, 0, style)}</td>
                <td>{toneSays(tone)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {tones.length > MOST ? <p className="quiet">and {tones.length - MOST} softer ones</p> : null}
    </section>
  );
}

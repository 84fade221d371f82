import { fixedText, frequencyText } from '../../charts/number-words.ts';
import { ScrollBox } from '../parts/ScrollBox.tsx';
import { useNumbers } from '../settings.ts';

interface BandTableProps {
  fHz: Float32Array;
  averageDb: ArrayLike<number>;
  spreadDb: ArrayLike<number>;
  unit: string;
}

/** The numbers behind the bands. */
export function BandTable({ fHz, averageDb, spreadDb, unit }: BandTableProps) {
  const style = useNumbers();
  return (
    <ScrollBox className="values" label="Values of the bands">
      <table>
        <thead>
          <tr>
            <th scope="col">Band</th>
            <th scope="col">Average, {unit}</th>
            <th scope="col">Spread, dB</th>
          </tr>
        </thead>
        <tbody>
          {Array.from(fHz, (f, b) => (
            <tr key={f}>
              <th scope="row">{frequencyText(f, style)}</th>
              <td>{fixedText(averageDb[b], 1, style)}</td>
              <td>{fixedText(spreadDb[b], 1, style)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollBox>
  );
}

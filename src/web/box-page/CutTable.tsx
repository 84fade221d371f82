// What must be sawn: outside measures typed, the depth from the volume, each panel with its size.
import { fixedText } from '../../charts/number-words.ts';
import { NumberInput } from '../part-editor/inputs.tsx';
import { quantities } from '../part-editor/quantity.ts';
import { useNumbers } from '../settings.ts';
import type { Carcass, CutList } from './box-model.ts';

interface CutTableProps {
  list: CutList | null;
  carcass: Carcass;
  onChange: (carcass: Carcass) => void;
}

export function CutTable({ list, carcass, onChange }: CutTableProps) {
  const style = useNumbers();
  const mm = (value: number) => fixedText(value, 0, style);
  const field = (name: keyof Carcass, label: string, quantity: 'millimetres' | 'litres', min: number, max: number) => (
    <NumberInput
      label={label}
      quantity={quantities[quantity]}
      range={{ min, max }}
      value={carcass[name]}
      onTyped={(entry) =>
        'value' in entry && entry.value !== undefined && onChange({ ...carcass, [name]: entry.value })
      }
    />
  );
  return (
    <section aria-labelledby="cuts" className="cuts">
      <h2 id="cuts">
        Cut list <small>outside measures; the depth follows from the volume</small>
      </h2>
      <div className="measures">
        {field('widthMm', 'Width', 'millimetres', 50, 3000)}
        {field('heightMm', 'Height', 'millimetres', 50, 3000)}
        {field('panelMm', 'Panel', 'millimetres', 1, 60)}
        {field('takenL', 'Driver and braces take', 'litres', 0, 200)}
      </div>
      {list === null ? null : (
        <table>
          <thead>
            <tr>
              <th scope="col">Panel</th>
              <th scope="col" className="num">
                How many
              </th>
              <th scope="col" className="num">
                mm
              </th>
            </tr>
          </thead>
          <tbody>
            {list.panels.map(({ name, count, widthMm, heightMm }) => (
              <tr key={name}>
                <td>{name}</td>
                <td className="num">{count}</td>
                <td className="num">
                  {mm(widthMm)} × {mm(heightMm)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {list === null ? null : (
        <p className="said">
          Outside {mm(carcass.widthMm)} × {mm(carcass.heightMm)} × {mm(list.depthMm)} mm,{' '}
          {fixedText(list.areaM2, 2, style)} m² of board, inside {fixedText(list.grossL, 1, style)} L before driver
          {list.portL > 0 ? ' and port' : ''}.
        </p>
      )}
    </section>
  );
}

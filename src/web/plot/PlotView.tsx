// A plot on a page: drawn for the width there is, read by cursor, key or finger, with its sentence and its table.
import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef, useState } from 'react';
import { pagePalette } from '../../charts/palette.ts';
import { axisPlace, plotArea, plotElements, plotMargin } from '../../charts/plot.ts';
import type { PlotSpec } from '../../charts/plot-spec.ts';
import { ScrollBox } from '../parts/ScrollBox.tsx';
import { curveValueAt, plotTable, type Readout } from './readout.ts';
import { useWidth } from './use-width.ts';

interface PlotViewProps {
  spec: PlotSpec;
  heightPx: number;
  readout: Readout;
  /** Beside the switch for the table: exports. */
  tools?: ReactNode;
}

export function PlotView({ spec, heightPx, readout, tools }: PlotViewProps) {
  const box = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(box);
  const [at, setAt] = useState<number | null>(null);
  const [table, setTable] = useState(false);
  const grid = spec.curves.find(({ x }) => x.length > 0)?.x ?? [];
  const inside = Array.from(grid).filter((x) => x >= spec.x.from && x <= spec.x.to);
  const index = at === null ? null : Math.min(at, inside.length - 1);
  const says = `${spec.sentence} ${spec.state}`;
  return (
    <figure className="plot">
      <div className="plot-box" ref={box} style={{ height: heightPx }}>
        {widthPx > 120 ? (
          <svg
            width={widthPx}
            height={heightPx}
            viewBox={`0 0 ${widthPx} ${heightPx}`}
            role="img"
            aria-label={says}
            // biome-ignore lint/security/noDangerouslySetInnerHtml: the charts write numbers and escaped text only
            dangerouslySetInnerHTML={{ __html: plotElements(spec, { widthPx, heightPx }, pagePalette) }}
          />
        ) : null}
        {inside.length > 1 && widthPx > 120 ? (
          <Cursor
            spec={spec}
            readout={readout}
            grid={inside}
            index={index}
            size={{ widthPx, heightPx }}
            onMove={setAt}
          />
        ) : null}
      </div>
      <figcaption>
        <div className="plot-tools">
          <p className="plot-line" aria-hidden="true">
            {index === null ? spec.sentence : <Values spec={spec} readout={readout} x={inside[index]} />}
          </p>
          <button type="button" className="linky" aria-expanded={table} onClick={() => setTable(!table)}>
            {table ? 'Hide the values' : 'Values as a table'}
          </button>
          {tools}
        </div>
        {table ? <Table spec={spec} readout={readout} /> : null}
      </figcaption>
    </figure>
  );
}

interface CursorProps {
  spec: PlotSpec;
  readout: Readout;
  grid: readonly number[];
  index: number | null;
  size: { widthPx: number; heightPx: number };
  onMove: (index: number | null) => void;
}

function valuesText(spec: PlotSpec, readout: Readout, x: number): string {
  const values = spec.curves.map((curve) => {
    const value = curveValueAt(curve, x, spec.x.scale);
    const name = curve.label && spec.curves.length > 1 ? `${curve.label} ` : '';
    return `${name}${value === null ? 'not known' : readout.y(value)}`;
  });
  return `${readout.x(x)}: ${values.join(', ')}`;
}

function Cursor({ spec, readout, grid, index, size, onMove }: CursorProps) {
  const area = plotArea(size);
  const placeX = axisPlace(spec.x, area.widthPx);
  const placeY = axisPlace(spec.y, area.heightPx);
  const nearest = (offset: number) =>
    grid.reduce((best, x, i) => (Math.abs(placeX(x) - offset) < Math.abs(placeX(grid[best]) - offset) ? i : best), 0);
  const follow = (event: PointerEvent<HTMLDivElement>) => {
    onMove(nearest(event.clientX - event.currentTarget.getBoundingClientRect().left));
  };
  const onKey = (event: KeyboardEvent) => {
    const step = event.shiftKey ? 10 : 1;
    const from = index ?? Math.floor(grid.length / 2);
    const to: Record<string, number> = {
      ArrowLeft: from - step,
      ArrowRight: from + step,
      PageDown: from - Math.ceil(grid.length / 12),
      PageUp: from + Math.ceil(grid.length / 12),
      Home: 0,
      End: grid.length - 1,
    };
    if (!(event.key in to)) return;
    event.preventDefault();
    onMove(Math.max(0, Math.min(grid.length - 1, to[event.key])));
  };
  const x = grid[index ?? 0];
  const first = index === null ? null : curveValueAt(spec.curves[0], x, spec.x.scale);
  const top = first === null ? -30 : area.heightPx - placeY(first);
  return (
    <>
      {index === null ? null : (
        <div
          className="cursor"
          style={{ left: plotMargin.left + placeX(x), ['--at' as string]: `${Math.max(-30, top)}px` }}
        />
      )}
      <div
        className="plot-touch"
        role="slider"
        tabIndex={0}
        aria-label={`Read values. ${spec.sentence}`}
        aria-valuemin={0}
        aria-valuemax={grid.length - 1}
        aria-valuenow={index ?? 0}
        aria-valuetext={index === null ? 'not yet read; move with the arrow keys' : valuesText(spec, readout, x)}
        onPointerDown={follow}
        onPointerMove={follow}
        onPointerLeave={(event) => (event.pointerType === 'mouse' ? onMove(null) : undefined)}
        onKeyDown={onKey}
      />
    </>
  );
}

function Values({ spec, readout, x }: { spec: PlotSpec; readout: Readout; x: number }) {
  return (
    <>
      <b>{readout.x(x)}</b>
      {spec.curves.map((curve, i) => {
        const value = curveValueAt(curve, x, spec.x.scale);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: the curves of a plot keep their order
          <span key={i}>
            {curve.label && spec.curves.length > 1 ? `${curve.label} ` : ''}
            <b>{value === null ? 'not known' : readout.y(value)}</b>
          </span>
        );
      })}
    </>
  );
}

function Table({ spec, readout }: { spec: PlotSpec; readout: Readout }) {
  const { names, rows } = plotTable(spec, readout);
  return (
    <ScrollBox className="values" label="Values">
      <table>
        <thead>
          <tr>
            <th scope="col">{readout.xName}</th>
            {names.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ x, values }) => (
            <tr key={x}>
              <th scope="row">{readout.x(x)}</th>
              {values.map((value, i) => (
                <td key={names[i]}>{value === null ? '\u2013' : readout.y(value)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollBox>
  );
}

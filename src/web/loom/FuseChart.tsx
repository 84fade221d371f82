// Load tick, fuse capsule, cable wall on one log scale: they must stand in that order.
import { fuseScale } from '../../charts/loom/fuse-scale.ts';
import { significantText } from '../../charts/number-words.ts';
import { type Severity, SeverityMark } from '../parts/Severity.tsx';
import { useNumbers } from '../settings.ts';
import type { FuseRow, FuseVerdict } from './power-model.ts';

const verdicts: Record<FuseVerdict, [Severity, string]> = {
  holds: ['ok', 'holds'],
  over: ['stop', 'over'],
  opens: ['fix', 'opens'],
  unknown: ['note', 'open'],
};

interface FuseChartProps {
  rows: readonly FuseRow[];
  onEdit: (row: FuseRow) => void;
}

export function FuseChart({ rows, onEdit }: FuseChartProps) {
  const style = useNumbers();
  const said = (value: number | undefined) => (value === undefined ? '\u2013' : significantText(value, 3, style));
  const scale = fuseScale(
    rows.flatMap(({ loadA, cableA, fuse }) => [loadA, cableA, fuse?.ratedA].filter((value) => value !== undefined)),
  );
  const left = (value: number) => ({ left: `${100 * scale.place(value)}%` });
  return (
    <div className="fuse-chart">
      <div className="fr hd" aria-hidden="true">
        <span />
        <span className="num">
          <i className="k ld" />
          load
        </span>
        <span className="num">
          <i className="k fu" />
          fuse
        </span>
        <span className="num">
          <i className="k wall" />
          cable
        </span>
        <span className="axn">amperes, log scale</span>
        <span />
      </div>
      {rows.map((row) => {
        const { run, fuse, name, loadA, cableA, verdict, missing } = row;
        const [severity, word] = verdicts[verdict];
        const id = fuse?.id ?? run.id;
        const says = `${id}, ${name}: load ${said(loadA)} A, fuse ${said(fuse?.ratedA)} A, cable ${said(cableA)} A, ${word}${missing === '' ? '' : `, ${missing}`}`;
        return (
          <button
            type="button"
            className={`fr ${verdict}`}
            key={`${run.id} ${id}`}
            aria-label={says}
            onClick={() => onEdit(row)}
          >
            <span className="fn">
              <b>{id}</b>
              <small>{fuse === undefined ? `${name}: no fuse` : name}</small>
            </span>
            <span className="num">{said(loadA)}</span>
            <span className="num f">{said(fuse?.ratedA)}</span>
            <span className="num">{said(cableA)}</span>
            <span className="sc">
              {scale.ticks.map((tick) => (
                <u key={tick} style={left(tick)} />
              ))}
              {loadA !== undefined && cableA !== undefined && cableA > loadA ? (
                <i
                  className="band"
                  style={{ ...left(loadA), width: `${100 * (scale.place(cableA) - scale.place(loadA))}%` }}
                />
              ) : null}
              {loadA === undefined ? null : <i className="ld" style={left(loadA)} />}
              {cableA === undefined ? null : <i className="wall" style={left(cableA)} />}
              {fuse?.ratedA === undefined ? null : <i className="fu" style={left(fuse.ratedA)} />}
            </span>
            <span className="vd">
              <SeverityMark severity={severity}>{word}</SeverityMark>
            </span>
          </button>
        );
      })}
      <div className="fr ax" aria-hidden="true">
        <span />
        <span />
        <span />
        <span />
        <span className="sc">
          {scale.ticks.map((tick) => (
            <em key={tick} style={left(tick)}>
              {said(tick)}
            </em>
          ))}
        </span>
        <span />
      </div>
    </div>
  );
}

// Battery, blocks and devices with the runs between them, drawn for the width there is; the same in words for a reader.
import { useRef } from 'react';
import { capsuleWidthPx, powerRiver, riverNodeHeightPx } from '../../charts/loom/power-river.ts';
import type { PlanView } from '../../job/rules/plan-view.ts';
import type { PlanFinding } from '../plan-lanes/plan-finding.ts';
import { useWidth } from '../plot/use-width.ts';
import { useNumbers } from '../settings.ts';
import { riverOf, runWords } from './power-model.ts';

export function River({ view, findings }: { view: PlanView; findings: readonly PlanFinding[] }) {
  const box = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(box);
  const style = useNumbers();
  const { nodes, edges } = riverOf(view, findings, style);
  const river = powerRiver(nodes, edges, Math.max(280, widthPx));
  const roomy = widthPx >= 480;
  const words = view.plan.run.map((run) => runWords(view, run, style));
  return (
    <figure className="river" ref={box}>
      {widthPx < 200 ? null : (
        <svg
          width={river.widthPx}
          height={river.heightPx}
          viewBox={`0 0 ${river.widthPx} ${river.heightPx}`}
          role="img"
          aria-label={`Power: ${words.join(' ')}`}
        >
          {river.edges.map(({ id, d, weightPx, bad, areaMm2 }) => (
            <path
              key={id}
              d={d}
              className={`run${bad ? ' bad' : ''}${areaMm2 === undefined ? ' unknown' : ''}`}
              strokeWidth={weightPx}
            />
          ))}
          {river.nodes.map(({ id, x, y, widthPx: width, name, small }) => (
            <g key={id} className="node">
              <rect x={x - width / 2} y={y - riverNodeHeightPx / 2} width={width} height={riverNodeHeightPx} rx="3" />
              <text x={x} y={small === '' ? y + 5 : y - 3} className="b">
                {name}
              </text>
              <text x={x} y={y + 15}>
                {small}
              </text>
            </g>
          ))}
          {river.edges.map(({ id, capsules, text, label }) => (
            <g key={id}>
              {capsules.map(({ id: fuse, bad, x, y }) => (
                <g key={fuse} className={`capsule${bad ? ' bad' : ''}`}>
                  <rect
                    x={x - capsuleWidthPx / 2 + 1}
                    y={y - 13}
                    width={capsuleWidthPx - 2}
                    height="26"
                    rx={bad ? 2 : 13}
                  />
                  <text x={x} y={y + 5} className="b">
                    {fuse}
                  </text>
                </g>
              ))}
              {roomy ? (
                <text x={text.x} y={text.y} className="label">
                  {label}
                </text>
              ) : null}
            </g>
          ))}
        </svg>
      )}
      <figcaption>
        <details>
          <summary>Runs in words, with what each loses</summary>
          <ul>
            {words.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      </figcaption>
    </figure>
  );
}

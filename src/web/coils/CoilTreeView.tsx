import { coilTree } from '../../charts/loom/coil-tree.ts';
import type { Network } from '../../plan/signal-parts.ts';

/** A wiring as bumps and wires; the words beside it say the same. */
export function CoilTreeView({ network, even }: { network: Network; even: boolean }) {
  const { widthPx, heightPx, wires, coils, ends } = coilTree(network);
  return (
    <svg
      className={`net${even ? ' even' : ''}`}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      width={widthPx}
      height={heightPx}
      aria-hidden="true"
    >
      <path d={wires} />
      {coils.map((d) => (
        <path key={d} d={d} className="co" />
      ))}
      {ends.map(({ x, y }, n) => (
        <circle key={x} cx={x} cy={y} r="2.5" className={n === 0 ? 'end' : 'end minus'} />
      ))}
    </svg>
  );
}

import type { CoverState } from '../../job/entry-kinds.ts';

/** The covers of a take as small plates in the order of their letters. */
export function CoverStrip({ covers }: { covers: readonly CoverState[] }) {
  if (covers.length === 0) return <span className="quiet">not said</span>;
  const sorted = [...covers].sort((a, b) => (a.cover < b.cover ? -1 : 1));
  const words = sorted.map(({ cover, state }) => `${cover} ${state}`).join(', ');
  return (
    <span className="cstrip" role="img" aria-label={`covers ${words}`}>
      {sorted.map(({ cover, state }) => (
        <i key={cover} className={state} />
      ))}
    </span>
  );
}

// Played at the left, heard at the right: a swap is a crossing, silence a line that breaks off.
import type { JobWalk } from '../../job/walk/job-walk.ts';

const rowPx = 44;
const middle = (row: number) => row * rowPx + rowPx / 2;

export function CrossingChart({ walk: { walk, heardOf, next } }: { walk: JobWalk }) {
  const { channels } = walk;
  const now = next.do === 'play' ? next.channel.id : null;
  const rowOf = new Map(channels.map(({ place }, row) => [place, row]));
  const heightPx = channels.length * rowPx;
  return (
    <section className="crossing" aria-labelledby="crossing">
      <h2 id="crossing" className="h2s">
        Played <small>and heard at</small>
      </h2>
      <div className="rows" style={{ gridTemplateRows: `repeat(${channels.length}, ${rowPx}px)` }}>
        <svg viewBox={`0 0 100 ${heightPx}`} preserveAspectRatio="none" aria-hidden="true" focusable="false">
          {channels.flatMap(({ id, place }, row) => {
            const heard = heardOf.get(id);
            if (heard === undefined) return [];
            if (heard.heard.length === 0) {
              return [<path key={id} className="silent" d={`M0 ${middle(row)}H38`} />];
            }
            return heard.heard.map((at) => {
              const to = rowOf.get(at.place) ?? row;
              const right = at.place === place && at.polarity !== '-';
              return (
                <path
                  key={`${id} ${at.place}`}
                  className={right ? 'right' : 'wrong'}
                  d={`M0 ${middle(row)}C45 ${middle(row)} 55 ${middle(to)} 100 ${middle(to)}`}
                />
              );
            });
          })}
        </svg>
        {channels.map(({ id, place, placeName }, row) => {
          const heard = heardOf.get(id);
          const words =
            heard === undefined
              ? 'not played yet'
              : heard.heard.length === 0
                ? 'nothing heard'
                : `heard at ${heard.heard.map((at) => at.place).join(' and ')}`;
          return [
            <b key={id} className={`from${id === now ? ' now' : ''}`} style={{ gridRow: row + 1 }}>
              {id}
              <span className="unseen">: {words}</span>
            </b>,
            <span key={`${id} silent`} className="between" style={{ gridRow: row + 1 }} aria-hidden="true">
              {heard?.heard.length === 0 ? 'nothing heard' : ''}
            </span>,
            <span key={place} className="to" style={{ gridRow: row + 1 }}>
              <b>{place}</b> {placeName}
            </span>,
          ];
        })}
      </div>
    </section>
  );
}

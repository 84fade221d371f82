// One hold point as a tag: what is to be proven, what a meter should read, what was given, and a place to give more.
import type { Evidence } from '../../job/hold-points/evidence-forms.ts';
import type { HoldPoint } from '../../job/hold-points/hold-points.ts';
import { rangeWords } from '../../job/hold-points/planned-points.ts';
import type { JobView } from '../api-client.ts';
import { Icon, type IconName } from '../parts/Icon.tsx';
import { whenText } from '../parts/times.ts';
import { trueMinus } from '../parts/true-minus.ts';
import { EvidenceForm } from './EvidenceForm.tsx';

export const tagOf: Record<HoldPoint['state'], IconName> = {
  open: 'tag-open',
  closed: 'tag-sealed',
  're-opened': 'tag-torn',
};

const verdictWords: Record<HoldPoint['evidence'][number]['verdict'], string> = {
  proves: 'proves it',
  outside: 'outside',
  'cannot-tell': 'cannot tell',
  stale: 'no longer counts',
};

interface PointRowProps {
  view: JobView;
  point: HoldPoint;
  /** Others that hide it too, beside the cover that it is listed behind. */
  alsoBehind: readonly string[];
  giving: boolean;
  busy: boolean;
  onToggle: () => void;
  onGive: (evidence: Evidence) => void;
}

export function PointRow({ view, point, alsoBehind, giving, busy, onToggle, onGive }: PointRowProps) {
  const { id, name, says, state, reason, expected, evidence } = point;
  const given = evidence.filter(({ verdict }) => verdict !== 'proves' || evidence.length > 1);
  return (
    <li className={`point ${state}`} data-point={id}>
      <div className="tag">
        <Icon name={tagOf[state]} />
        <b>{name}</b>
        <span className="state">{state}</span>
        <button type="button" className="btn" aria-expanded={giving} onClick={onToggle}>
          {giving ? 'Close' : state === 'closed' ? 'Give more' : 'Give evidence'}
          <span className="unseen"> for {name}</span>
        </button>
      </div>
      <p className="claim">{trueMinus(says)}</p>
      <p className="more">
        {expected === null ? null : <span>expected {rangeWords(expected)}</span>}
        {alsoBehind.length > 0 ? <span>also behind {alsoBehind.join(' and ')}</span> : null}
        {state === 'open' && evidence.length === 0 && point.needs === null ? null : (
          <span className="why">{trueMinus(reason)}</span>
        )}
      </p>
      {given.length > 0 ? (
        <ul className="given" aria-label={`Evidence for ${name}`}>
          {given.map((piece, n) => (
            <li key={piece.entry ?? `${piece.how} ${n}`} className={piece.verdict}>
              <b>{trueMinus(piece.says)}</b>
              <span>{verdictWords[piece.verdict]}</span>
              {piece.who === null || piece.when === null ? null : (
                <small>
                  {piece.who}, {whenText(piece.when, new Date())}
                </small>
              )}
            </li>
          ))}
        </ul>
      ) : null}
      {giving ? <EvidenceForm view={view} point={point} busy={busy} onGive={onGive} onCancel={onToggle} /> : null}
    </li>
  );
}

// A cover's callout: its letter, its state, and what lies behind it.
import type { PlanPlace } from '../../charts/vehicle/layout.ts';
import { Icon } from '../parts/Icon.tsx';
import { CoverButton } from '../plan/CoverButton.tsx';
import type { KnownCoverState } from '../plan/cover-words.ts';
import { PassedOver } from '../plan/PassedOver.tsx';
import { Link } from '../shell/Link.tsx';

interface CalloutProps {
  job: string;
  cover: { id: string; name: string };
  state: KnownCoverState | undefined;
  behind: readonly PlanPlace[];
  /** How many takes a place has. */
  takesAt: (place: PlanPlace) => number;
  onPress: () => void;
  /** Hold points behind it, once they are known. */
  proof?: { planned: string; open: readonly { id: string; name: string }[]; proven: number } | undefined;
  /** Who fastened it over what was not proven. */
  passedOver?: Parameters<typeof PassedOver>[0]['over'] | undefined;
}

const stateWords: Record<KnownCoverState, string> = {
  off: 'open to the work',
  resting: 'set in place, not fastened',
  fastened: 'closed',
};

/** What the state comes to with what is unproven behind it. */
function standing(state: KnownCoverState | undefined, proof: CalloutProps['proof']): [words: string, bad: boolean] {
  const open = proof?.open.length ?? 0;
  if (open > 0) {
    const act = state === undefined ? '' : state === 'fastened' ? 'lift again, ' : 'keep off, ';
    return [`${act}${open} unproven`, true];
  }
  if (state === undefined) return ['say how it is', false];
  return [
    proof !== undefined && proof.proven > 0 && state !== 'fastened' ? 'may be fastened' : stateWords[state],
    false,
  ];
}

export function Callout({ job, cover, state, behind, takesAt, onPress, proof, passedOver }: CalloutProps) {
  const [words, bad] = standing(state, proof);
  const open = proof?.open ?? [];
  return (
    <section className="co" data-callout={cover.id} aria-label={`${cover.id}, ${cover.name}`}>
      <div className="t">
        <span className="ltr" aria-hidden="true">
          {cover.id}
        </span>
        <b>
          {cover.name}
          <small className={bad ? 'unproven' : ''}>{words}</small>
        </b>
        <CoverButton name={cover.name} state={state} onPress={onPress} />
      </div>
      {passedOver ? <PassedOver over={passedOver} /> : null}
      <ul className="behind">
        {behind.map((place) => {
          const takes = takesAt(place);
          return (
            <li key={place.id}>
              <Link to={{ page: 'take', job, place: place.name }} className={takes === 0 ? '' : 'heard'}>
                <Icon name="driver" />
                <b>{place.id}</b> {place.name}
                <span className={takes === 0 ? 'unseen' : 'quiet'}>
                  {takes === 0 ? ', not heard' : takes === 1 ? '1 take' : `${takes} takes`}
                </span>
              </Link>
            </li>
          );
        })}
        {proof !== undefined && open.length > 0 ? (
          <li>
            <Link to={{ page: 'hold-points', job, cover: proof.planned }} className="tags">
              <Icon name="tag-open" />
              <b>{open.length} open</b>
              <span>
                {open
                  .slice(0, 2)
                  .map(({ name }) => name)
                  .join(', ')}
                {open.length > 2 ? ` and ${open.length - 2} more` : ''}
              </span>
            </Link>
          </li>
        ) : null}
        {behind.length + open.length === 0 ? <li className="quiet">no driver behind it</li> : null}
      </ul>
    </section>
  );
}

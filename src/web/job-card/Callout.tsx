// A cover's callout: its letter, its state, and what lies behind it.
import type { PlanPlace } from '../../charts/vehicle/layout.ts';
import { Icon } from '../parts/Icon.tsx';
import { CoverButton } from '../plan/CoverButton.tsx';
import type { KnownCoverState } from '../plan/cover-words.ts';
import { Link } from '../shell/Link.tsx';

interface CalloutProps {
  job: string;
  cover: { id: string; name: string };
  state: KnownCoverState | undefined;
  behind: readonly PlanPlace[];
  /** How many takes a place has. */
  takesAt: (place: PlanPlace) => number;
  onPress: () => void;
}

const stateWords: Record<KnownCoverState, string> = {
  off: 'open to the work',
  resting: 'set in place, not fastened',
  fastened: 'closed',
};

export function Callout({ job, cover, state, behind, takesAt, onPress }: CalloutProps) {
  return (
    <section className="co" data-callout={cover.id} aria-label={`${cover.id}, ${cover.name}`}>
      <div className="t">
        <span className="ltr" aria-hidden="true">
          {cover.id}
        </span>
        <b>
          {cover.name}
          <small>{state ? stateWords[state] : 'say how it is'}</small>
        </b>
        <CoverButton name={cover.name} state={state} onPress={onPress} />
      </div>
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
        {behind.length === 0 ? <li className="quiet">no driver behind it</li> : null}
      </ul>
    </section>
  );
}

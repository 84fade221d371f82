// Eight bodies to choose from, each drawn from its numbers, and one for whatever else stands in the bay.
import './body-choice.css';
import { type BodyKind, bodyKinds, type SteeringHand, vehicleBodies } from '../../charts/vehicle/bodies.ts';
import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import { PlanView } from '../plan/PlanView.tsx';
import { sizeText } from '../plan/size-text.ts';
import { useSettings } from '../settings.ts';
import { Link } from '../shell/Link.tsx';

interface BodyChoiceProps {
  /** Whose plans are drawn large; null for a card that is not made yet. */
  job: string | null;
  value: BodyKind | 'other' | null;
  hand: SteeringHand;
  onChange: (value: BodyKind | 'other') => void;
}

export function BodyChoice({ job, value, hand, onChange }: BodyChoiceProps) {
  const size = sizeText(useSettings());
  return (
    <>
      <p className="to-plans">
        <Link to={{ page: 'vehicles', job }}>All {bodyKinds.length} drawn large, with their covers</Link>
      </p>
      <fieldset className="bodies">
        <legend className="unseen">Body of the vehicle</legend>
        {bodyKinds.map((kind) => {
          const body = vehicleBodies[kind];
          return (
            <label key={kind}>
              <input type="radio" name="body" checked={value === kind} onChange={() => onChange(kind)} />
              <PlanView
                drawing={planDrawing(body, { hand, pxPerM: 46, padX: 10, padY: 3 })}
                label=""
                stateOf={() => (value === kind ? 'off' : 'ghost')}
                letters={false}
                places={false}
              />
              <b>{body.name.split(',')[0]}</b>
              <small>
                {size.text(body.lengthM)} × {size.text(body.widthM)} {size.unit}
              </small>
            </label>
          );
        })}
        <label className="other">
          <input type="radio" name="body" checked={value === 'other'} onChange={() => onChange('other')} />
          <span>
            <b>Something else</b>
            <small>a boat, a lorry, a bare chassis: no plan view, everything else works</small>
          </span>
        </label>
      </fieldset>
    </>
  );
}

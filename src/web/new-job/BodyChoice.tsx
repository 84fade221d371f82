// Eight bodies to choose from, each drawn from its numbers, and one for whatever else stands in the bay.
import './body-choice.css';
import { fixedText } from '../../charts/number-words.ts';
import { type BodyKind, bodyKinds, type SteeringHand, vehicleBodies } from '../../charts/vehicle/bodies.ts';
import { planDrawing } from '../../charts/vehicle/draw-plan.ts';
import { PlanView } from '../plan/PlanView.tsx';
import { useSettings } from '../settings.ts';

interface BodyChoiceProps {
  value: BodyKind | 'other' | null;
  hand: SteeringHand;
  onChange: (value: BodyKind | 'other') => void;
}

const inchesPerM = 39.3701;

export function BodyChoice({ value, hand, onChange }: BodyChoiceProps) {
  const settings = useSettings();
  const size = (metres: number) =>
    settings.units === 'imperial' ? fixedText(metres * inchesPerM, 0, settings) : fixedText(metres, 2, settings);
  const unit = settings.units === 'imperial' ? 'in' : 'm';
  return (
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
              {size(body.lengthM)} × {size(body.widthM)} {unit}
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
  );
}

// On which side the steering wheel is: it moves covers and places.
import type { SteeringHand } from '../../charts/vehicle/bodies.ts';
import { Switch } from '../parts/Switch.tsx';

interface HandSwitchProps {
  hand: SteeringHand;
  onChange: (hand: SteeringHand) => void;
}

export function HandSwitch({ hand, onChange }: HandSwitchProps) {
  return (
    <Switch
      label="Side of the steering wheel"
      value={hand}
      onChange={onChange}
      options={[
        { value: 'left', label: 'Wheel on the left' },
        { value: 'right', label: 'Wheel on the right' },
      ]}
    />
  );
}

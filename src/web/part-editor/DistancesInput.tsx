// How far each place is from a seat: a tape measure from the head rest to the cone.
import type { PartOf, Plan } from '../../plan/plan.ts';
import { NumberInput, type Typed } from './inputs.tsx';
import { partLabel } from './part-facts.ts';
import { quantities } from './quantity.ts';

type Distances = NonNullable<PartOf<'seat'>['distances']>;

interface DistancesInputProps {
  label: string;
  plan: Plan;
  value: Distances | undefined;
  onTyped: (typed: Typed<unknown>) => void;
}

export function DistancesInput({ label, plan, value = [], onTyped }: DistancesInputProps) {
  const changed = (place: string, distanceM: number | undefined): Distances | undefined => {
    const others = value.filter((known) => known.place !== place);
    const next = distanceM === undefined ? others : [...others, { place, distanceM }];
    return next.length === 0 ? undefined : next;
  };
  return (
    <fieldset className="distances">
      <legend>{label}</legend>
      {plan.place.length === 0 ? <p>The plan has no places yet.</p> : null}
      {plan.place.map(({ id }) => (
        <NumberInput
          key={id}
          label={partLabel(plan, id)}
          quantity={quantities.metres}
          range={{ min: 0, max: 100 }}
          value={value.find(({ place }) => place === id)?.distanceM}
          onTyped={(typed) => onTyped('wrong' in typed ? typed : { value: changed(id, typed.value) })}
        />
      ))}
    </fieldset>
  );
}

// Which drivers a load has, and how their coils are joined: every even way, or the one that is there.
import { driversIn } from '../../plan/networks.ts';
import type { Plan } from '../../plan/plan.ts';
import type { Network } from '../../plan/signal-parts.ts';
import { usualWirings, wiringKey, wiringWords } from '../coils/wirings.ts';
import { Checks, Pick } from './choices.tsx';
import { partLabel } from './part-facts.ts';

interface WiringInputProps {
  label: string;
  plan: Plan;
  value: Network | undefined;
  onChange: (network: Network | undefined) => void;
}

export function WiringInput({ label, plan, value, onChange }: WiringInputProps) {
  const chosen = value === undefined ? [] : driversIn(value);
  const drivers = plan.driver.filter(({ id }) => chosen.includes(id));
  const wirings = usualWirings(drivers);
  const key = value === undefined ? undefined : wiringKey(value);
  const known = wirings.find(({ network }) => wiringKey(network) === key);
  return (
    <div className="wide">
      <Checks
        label={label}
        value={chosen}
        options={plan.driver.map(({ id }) => ({ value: id, words: partLabel(plan, id) }))}
        onChange={(ids) => onChange(usualWirings(plan.driver.filter(({ id }) => ids?.includes(id)))[0]?.network)}
      />
      {wirings.length > 1 ? (
        <Pick
          label="Coils"
          none={known ? 'choose' : wiringWords(value, drivers)}
          value={known?.name}
          options={wirings.map(({ name }) => ({ value: name, words: name }))}
          onChange={(name) => onChange(wirings.find((wiring) => wiring.name === name)?.network ?? value)}
        />
      ) : null}
    </div>
  );
}

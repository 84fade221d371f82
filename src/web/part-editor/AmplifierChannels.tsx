// The channels of an amplifier and what each gives: the same for all of them, as nearly every maker rates them.
import type { PartOf } from '../../plan/plan.ts';
import { NumberInput, type Typed } from './inputs.tsx';
import { quantities } from './quantity.ts';

export type AmplifierRatings = PartOf<'amplifier'>['channels'];
type Channel = NonNullable<AmplifierRatings>[number];

const usualOhms = [8, 4, 2, 1];

/** Channels 1 to `count`, those that were there kept, the others like the first. */
function counted(channels: readonly Channel[], count: number): Channel[] {
  return Array.from({ length: count }, (_, n) => channels[n] ?? { ...channels[0], id: String(n + 1) });
}

interface AmplifierChannelsProps {
  value: AmplifierRatings;
  onTyped: (typed: Typed<unknown>) => void;
}

export function AmplifierChannels({ value = [], onTyped }: AmplifierChannelsProps) {
  const [first] = value;
  const ratings = first?.ratings ?? [];
  const ohms = [...new Set([...usualOhms, ...ratings.map(({ ohm }) => ohm)])].sort((a, b) => b - a);
  const differ = new Set(value.map(({ ratings: each, minimumOhm }) => JSON.stringify([each, minimumOhm]))).size > 1;
  const all = (change: (channel: Channel) => Channel) => onTyped({ value: value.map(change) });
  const sound = <Value,>(typed: Typed<Value>, take: (given: Value | undefined) => void) =>
    'value' in typed ? take(typed.value) : onTyped(typed);
  const setPower = (ohm: number, powerW: number | undefined) =>
    all((channel) => {
      const others = (channel.ratings ?? []).filter((rating) => rating.ohm !== ohm);
      const next = powerW === undefined ? others : [...others, { ohm, powerW }].sort((a, b) => b.ohm - a.ohm);
      const { ratings: _, ...rest } = channel;
      return next.length === 0 ? rest : { ...rest, ratings: next };
    });
  return (
    <fieldset className="wide ratings">
      <legend>Channels and continuous power{differ ? ' (they differ: what is typed here goes for all)' : ''}</legend>
      <NumberInput
        label="Channels"
        quantity={quantities.number}
        range={{ min: 1, max: 32, whole: true }}
        value={value.length === 0 ? undefined : value.length}
        onTyped={(typed) =>
          sound(typed, (count) => onTyped({ value: count === undefined ? undefined : counted(value, count) }))
        }
      />
      {value.length === 0
        ? null
        : ohms.map((ohm) => (
            <NumberInput
              key={ohm}
              label={`Into ${ohm} ohm`}
              quantity={quantities.watts}
              range={{ min: 0.01, max: 50_000 }}
              value={ratings.find((rating) => rating.ohm === ohm)?.powerW}
              onTyped={(typed) => sound(typed, (powerW) => setPower(ohm, powerW))}
            />
          ))}
      {value.length === 0 ? null : (
        <NumberInput
          label="Lowest load"
          quantity={quantities.ohms}
          range={{ min: 0.01, max: 100_000 }}
          value={first?.minimumOhm}
          onTyped={(typed) =>
            sound(typed, (minimumOhm) =>
              all(({ minimumOhm: _, ...channel }) => (minimumOhm === undefined ? channel : { ...channel, minimumOhm })),
            )
          }
        />
      )}
    </fieldset>
  );
}

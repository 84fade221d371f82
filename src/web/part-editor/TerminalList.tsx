// The inputs or outputs of a device: how many, and what all of them are alike in.
import type { PartOf, Plan } from '../../plan/plan.ts';
import { signalKinds } from '../../plan/signal-parts.ts';
import { Pick } from './choices.tsx';
import { NumberInput } from './inputs.tsx';
import { terminalsFor } from './part-facts.ts';
import { quantities } from './quantity.ts';

type Input = NonNullable<PartOf<'processor'>['inputs']>[number];
type Output = NonNullable<PartOf<'processor'>['outputs']>[number];
type Terminal = Input & Output;
export type Terminals = Terminal[] | undefined;

const words = { inputs: 'Inputs', outputs: 'Outputs', source: 'Outputs' } as const;
const kindWords = { line: 'line level', balanced: 'balanced line', speaker: 'speaker level', digital: 'digital' };
const adaptorWords = { none: 'none', differential: 'differential', grounded: 'grounded' };

/** Two are left and right; more are numbered. */
const nameOf = (n: number, count: number) => (count <= 2 ? ['left', 'right'][n] : String(n + 1));

interface TerminalListProps {
  side: 'inputs' | 'outputs' | 'source';
  plan: Plan;
  value: Terminals;
  onChange: (value: Terminals) => void;
  onWrong: (field: string, wrong: string | null) => void;
}

export function TerminalList({ side, plan, value = [], onChange, onWrong }: TerminalListProps) {
  const [first] = value;
  const setAll = <Field extends keyof Terminal>(field: Field, given: Terminal[Field] | undefined) =>
    onChange(
      value.map((terminal) => {
        const next = { ...terminal, ...(given === undefined ? {} : { [field]: given }) };
        if (given === undefined) delete next[field];
        return next;
      }),
    );
  const numbered = side === 'outputs' || value.length > 2;
  const resize = (count: number | undefined) =>
    onChange(
      count === undefined
        ? undefined
        : Array.from({ length: count }, (_, n) => {
            const known = value[n];
            if (known !== undefined && !(numbered && count <= 2)) return known;
            return { ...first, id: side === 'outputs' ? String(n + 1) : nameOf(n, count) };
          }),
    );
  return (
    <fieldset className="wide ratings">
      <legend>{words[side]}</legend>
      <NumberInput
        label="How many"
        quantity={quantities.number}
        range={{ min: 1, max: 64, whole: true }}
        value={value.length === 0 ? undefined : value.length}
        onTyped={(typed) => {
          onWrong(side, 'wrong' in typed ? typed.wrong : null);
          if ('value' in typed) resize(typed.value);
        }}
      />
      {value.length === 0 || side === 'source' ? null : (
        <NumberInput
          label={side === 'inputs' ? 'Takes up to' : 'Gives up to'}
          quantity={quantities.volts}
          range={{ min: 0.001, max: 1000 }}
          value={first.maxV}
          onTyped={(typed) => {
            onWrong(`${side} volts`, 'wrong' in typed ? typed.wrong : null);
            if ('value' in typed) setAll('maxV', typed.value);
          }}
        />
      )}
      {side === 'inputs' && value.length > 0 ? (
        <>
          <Pick
            label="Made for"
            value={first.kind}
            options={signalKinds.map((kind) => ({ value: kind, words: kindWords[kind] }))}
            onChange={(kind) => setAll('kind', kind as Input['kind'])}
          />
          <Pick
            label="Adaptor before them"
            value={first.adaptor}
            options={Object.entries(adaptorWords).map(([adaptor, say]) => ({ value: adaptor, words: say }))}
            onChange={(adaptor) => setAll('adaptor', adaptor as Input['adaptor'])}
          />
          {value.map((input) => (
            <Pick
              key={input.id}
              label={`Input ${input.id} hears`}
              none="nothing yet"
              value={input.from}
              options={terminalsFor(plan, 'source')}
              onChange={(from) =>
                onChange(
                  value.map((known) => {
                    if (known.id !== input.id) return known;
                    const { from: _, ...rest } = known;
                    return from === undefined ? rest : { ...rest, from };
                  }),
                )
              }
            />
          ))}
        </>
      ) : null}
    </fieldset>
  );
}

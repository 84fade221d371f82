// What may be changed of a box: its kind, volume, fill, tuning and ports; two closed boxes to begin with.
import type { ReactNode } from 'react';
import { significantText } from '../../charts/number-words.ts';
import { NumberInput } from '../part-editor/inputs.tsx';
import { quantities } from '../part-editor/quantity.ts';
import { Switch } from '../parts/Switch.tsx';
import { useNumbers } from '../settings.ts';
import { type BoxSystem, closedLitres, type TriedBox } from './box-model.ts';

export const kindNames = { sealed: 'closed', vented: 'vented', 'infinite-baffle': 'none' } as const;

interface BoxControlsProps {
  tried: TriedBox;
  system: BoxSystem;
  /** Which driver. */
  choice: ReactNode;
  onChange: (next: Partial<TriedBox>) => void;
}

export function BoxControls({ tried, system, choice, onChange: set }: BoxControlsProps) {
  const style = useNumbers();
  const proposals = [Math.SQRT1_2, 0.9].flatMap((qtc) => {
    const netL = closedLitres(system, qtc);
    return netL === null ? [] : [{ qtc, netL }];
  });
  return (
    <>
      <div className="bchs">
        {choice}
        <div className="nr">
          <span>Kind of box</span>
          <Switch
            label="Kind of box"
            value={tried.kind}
            options={(['sealed', 'vented', 'infinite-baffle'] as const).map((kind) => ({
              value: kind,
              label: kindNames[kind],
            }))}
            onChange={(kind) => set({ kind })}
          />
        </div>
        {tried.kind === 'infinite-baffle' ? null : (
          <>
            <NumberInput
              label="Net volume"
              quantity={quantities.litres}
              range={{ min: 0.01, max: 5000 }}
              value={tried.netL}
              onTyped={(entry) => 'value' in entry && entry.value !== undefined && set({ netL: entry.value })}
            />
            <NumberInput
              label="Gain by fill"
              quantity={quantities.number}
              range={{ min: 1, max: 1.5 }}
              value={tried.fillGain}
              steps={[1, 1.05, 1.1, 1.15, 1.2]}
              onTyped={(entry) => 'value' in entry && entry.value !== undefined && set({ fillGain: entry.value })}
            />
          </>
        )}
        {tried.kind === 'vented' ? (
          <>
            <NumberInput
              label="Tuned to"
              quantity={quantities.hertz}
              range={{ min: 5, max: 500 }}
              value={tried.tuningHz}
              onTyped={(entry) => 'value' in entry && entry.value !== undefined && set({ tuningHz: entry.value })}
            />
            <NumberInput
              label="Area of all ports"
              quantity={quantities.squareCentimetres}
              range={{ min: 0.1, max: 10_000 }}
              value={tried.portAreaCm2}
              onTyped={(entry) => 'value' in entry && entry.value !== undefined && set({ portAreaCm2: entry.value })}
            />
            <NumberInput
              label="Ports"
              quantity={quantities.number}
              range={{ min: 1, max: 20, whole: true }}
              value={tried.ports}
              onTyped={(entry) => 'value' in entry && entry.value !== undefined && set({ ports: entry.value })}
            />
          </>
        ) : null}
      </div>
      {tried.kind === 'sealed' && proposals.length > 0 ? (
        <div className="pick">
          {proposals.map(({ qtc, netL }) => (
            <button
              key={qtc}
              type="button"
              className="btn"
              aria-pressed={tried.netL === netL}
              onClick={() => set({ netL })}
            >
              {significantText(netL, 3, style)} L, Q {significantText(qtc, 2, style)}
            </button>
          ))}
        </div>
      ) : null}
    </>
  );
}

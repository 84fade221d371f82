// How an impedance sweep is recorded and handed over: cautions, the circuit's figures, and the files.
import { useState } from 'react';
import type { MeasuredJoin } from '../../../drivers/impedance/against-sheet.ts';
import type { PartOf } from '../../../plan/plan.ts';
import { Pick } from '../../part-editor/choices.tsx';
import { NumberInput } from '../../part-editor/inputs.tsx';
import { quantities } from '../../part-editor/quantity.ts';
import { DropZone, FileButton } from '../../parts/DropZone.tsx';
import { useNumbers } from '../../settings.ts';
import { resistorCaution } from './impedance-words.ts';
import type { Impedance } from './use-impedance.ts';

const orders = [
  { value: 'source', words: 'before the resistor, then at the driver' },
  { value: 'driver', words: 'at the driver, then before the resistor' },
];
const joins: { value: MeasuredJoin; words: string }[] = [
  { value: 'one', words: 'one coil alone' },
  { value: 'series', words: 'coil after coil' },
  { value: 'parallel', words: 'side by side' },
];

export function SweepFiles({ driver, impedance }: { driver: PartOf<'driver'>; impedance: Impedance }) {
  const style = useNumbers();
  const { setup, set } = impedance;
  const { files, seriesOhm, leadOhm, driverFirst, joined } = setup;
  const [fault, setFault] = useState<string | null>(null);
  const take = (dropped: readonly File[]) => {
    // Takes of one session sort by their names.
    const named = [...dropped].sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
    setFault(named.length > 2 ? 'One recording of both voltages, or two: more were dropped.' : null);
    if (named.length > 0 && named.length < 3) set({ files: named });
  };
  const small = driver.kind === 'tweeter' || driver.kind === 'mid';
  return (
    <>
      <ul className="sweep-cautions" aria-label="Cautions">
        <li>
          Begin at the lowest level: half a volt is plenty.
          {small ? ' A small driver gets a tenth of that, since the sweep goes below where it may play loud.' : ''}
        </li>
        <li>
          Hold the driver free in the air, its cone clear of everything. In its box the curve is that of driver and box.
        </li>
        <li>{resistorCaution(seriesOhm, style)}</li>
        <li>
          Outputs of full-bridge amplifiers may not touch the ground of a recorder. A headphone output has no such
          fault.
        </li>
      </ul>
      <div className="circuit">
        <NumberInput
          label="The resistor, by a meter"
          quantity={quantities.ohms}
          range={{ min: 0.1, max: 10_000 }}
          value={seriesOhm}
          onTyped={(entry) => set({ seriesOhm: 'value' in entry ? entry.value : undefined })}
        />
        <NumberInput
          label="Leads and clips"
          quantity={quantities.ohms}
          range={{ min: 0, max: 5 }}
          value={leadOhm}
          onTyped={(entry) => ('value' in entry ? set({ leadOhm: entry.value ?? 0 }) : undefined)}
        />
        {(driver.coils ?? 1) > 1 ? (
          <Pick
            label="Its coils"
            none="not said"
            value={joined}
            options={joins}
            onChange={(value) => set({ joined: (value ?? 'one') as MeasuredJoin })}
          />
        ) : null}
        <Pick
          label="Inputs, or files, in this order"
          none="as recorded"
          value={driverFirst ? 'driver' : 'source'}
          options={orders}
          onChange={(value) => set({ driverFirst: value === 'driver' })}
        />
      </div>
      <DropZone className="sweep-drop" label="The recording of the sweep" onFiles={take}>
        <p>
          {files.length === 0
            ? 'Drop the WAV here: both voltages in one, or two, one after the other. Any sweep of 5 to 20 s will do.'
            : `${files.map(({ name }) => name).join(', ')}${seriesOhm === undefined ? '. Type the resistor to have it read.' : ''}`}
        </p>
        <FileButton text="Choose the recording" accept=".wav,audio/wav,audio/x-wav" onFiles={take} />
        {fault === null ? null : (
          <p className="wrong" role="alert">
            {fault}
          </p>
        )}
      </DropZone>
    </>
  );
}

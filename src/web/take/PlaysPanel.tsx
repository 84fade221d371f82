// What plays: where, what kind of track, on which side, how loud, and from which device.
import { useState } from 'react';
import { fixedText } from '../../charts/number-words.ts';
import type { PlanPlace } from '../../charts/vehicle/layout.ts';
import { useDevices } from '../audio/devices.ts';
import { outputsCanBeChosen } from '../audio/player.ts';
import { Choice } from '../parts/Choice.tsx';
import { Field } from '../parts/Field.tsx';
import { trueMinus } from '../parts/true-minus.ts';
import { useNumbers } from '../settings.ts';
import { suggested, type TakeChoice } from './choice.ts';
import { TrackFiles } from './TrackFiles.tsx';
import { allTogether, type DesignedTake, type RangeName, ranges, takeKinds } from './take-wish.ts';

interface PlaysPanelProps {
  choice: TakeChoice;
  change: (change: Partial<TakeChoice>) => void;
  places: readonly PlanPlace[];
  heardBefore: (place: string) => boolean;
  designed: DesignedTake | null;
  onFile: () => void;
}

const another = '\u0000';

export function PlaysPanel({ choice, change, places, heardBefore, designed, onFile }: PlaysPanelProps) {
  const style = useNumbers();
  const { outputs } = useDevices(null);
  const known = [allTogether, ...places.map(({ name }) => name)];
  const [typed, setTyped] = useState(!known.includes(choice.place));
  const setPlace = (place: string) => change(suggested(place, heardBefore(place)));
  return (
    <section className="plays" aria-label="What plays">
      <h2 className="h2s">What plays</h2>
      <div className="two">
        <Field label="Place">
          {(given) => (
            <select
              {...given}
              value={typed ? another : choice.place}
              onChange={({ target }) => {
                setTyped(target.value === another);
                if (target.value !== another) setPlace(target.value);
              }}
            >
              <option value={allTogether}>{allTogether}</option>
              {places.map(({ id, name }) => (
                <option key={id} value={name}>
                  {id} {name}
                </option>
              ))}
              <option value={another}>Another place</option>
            </select>
          )}
        </Field>
        {typed ? (
          <Field label="Name of the place">
            {(given) => (
              <input
                {...given}
                value={known.includes(choice.place) ? '' : choice.place}
                maxLength={120}
                onChange={({ target }) => change({ place: target.value })}
              />
            )}
          </Field>
        ) : (
          <Field label="Range">
            {(given) => (
              <select
                {...given}
                value={choice.range}
                disabled={choice.kind === 'polarity' || choice.kind === 'near'}
                onChange={({ target }) => change({ range: target.value as RangeName })}
              >
                {Object.entries(ranges).map(([name, { label, fromHz, toHz }]) => (
                  <option key={name} value={name}>
                    {label}, {fromHz} Hz to {toHz / 1000} kHz
                  </option>
                ))}
              </select>
            )}
          </Field>
        )}
      </div>
      <Choice
        legend="Test track"
        columns={4}
        options={takeKinds}
        value={choice.kind}
        onChange={(kind) => change({ kind })}
      />
      <div className="two">
        <Choice
          legend="Side of the file that plays"
          columns={3}
          options={[
            { value: 'left', label: 'Left' },
            { value: 'right', label: 'Right' },
            { value: 'both', label: 'Both' },
          ]}
          value={choice.kind === 'pair' || choice.kind === 'near' ? 'both' : choice.side}
          onChange={(side) => change({ side })}
        />
        <Choice
          legend="Highest peak of the file, dBFS"
          columns={3}
          options={[-30, -20, -12].map((level) => ({
            value: String(level),
            label: fixedText(level, 0, style),
          }))}
          value={String(choice.levelDbfs)}
          onChange={(level) => change({ levelDbfs: Number(level) })}
        />
      </div>
      <Choice
        legend="From where"
        columns={2}
        options={[
          { value: 'here', label: 'From this device', small: 'its output goes into the car' },
          { value: 'elsewhere', label: 'Phone or USB stick', small: 'take the file, play it there' },
        ]}
        value={choice.plays}
        onChange={(plays) => change({ plays })}
      />
      {choice.plays === 'here' && outputsCanBeChosen && outputs.length > 1 ? (
        <Field label="Output">
          {(given) => (
            <select
              {...given}
              value={choice.outputId ?? ''}
              onChange={({ target }) => change({ outputId: target.value || null })}
            >
              <option value="">As the computer is set</option>
              {outputs.map(({ deviceId, label }) => (
                <option key={deviceId} value={deviceId}>
                  {label}
                </option>
              ))}
            </select>
          )}
        </Field>
      ) : null}
      {choice.plays === 'elsewhere' && designed ? <TrackFiles track={designed.track} onFile={onFile} /> : null}
      {designed && designed.cautions.length > 0 ? (
        <ul className="cautions">
          {designed.cautions.map((caution) => (
            <li key={caution}>{trueMinus(caution)}</li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}

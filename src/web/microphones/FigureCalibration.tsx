// Calibration by figures from data sheets: good to a decibel or two, and said so.
import { useState } from 'react';
import { Choice } from '../parts/Choice.tsx';
import { Field } from '../parts/Field.tsx';
import { fullScaleFromDigital, fullScaleFromSensitivity, typedNumber } from './full-scale.ts';

export interface Figure {
  fullScaleSplDb: number;
  method: string;
}

interface FigureCalibrationProps {
  onFigure: (figure: Figure | null) => void;
}

function within(text: string, min: number, max: number): number | null {
  const value = typedNumber(text);
  return value !== null && value >= min && value <= max ? value : null;
}

export function FigureCalibration({ onFigure }: FigureCalibrationProps) {
  const [kind, setKind] = useState<'analogue' | 'digital'>('digital');
  const [dbfs, setDbfs] = useState('');
  const [mv, setMv] = useState('');
  const [volts, setVolts] = useState('');
  const tell = (next: { kind: 'analogue' | 'digital'; dbfs: string; mv: string; volts: string }) => {
    if (next.kind === 'digital') {
      const value = within(next.dbfs, -80, 0);
      onFigure(
        value === null
          ? null
          : { fullScaleSplDb: fullScaleFromDigital(value), method: `figure, ${value} dBFS at 94 dB` },
      );
      return;
    }
    const sensitivity = within(next.mv, 0.01, 1000);
    const input = within(next.volts, 0.001, 100);
    onFigure(
      sensitivity === null || input === null
        ? null
        : {
            fullScaleSplDb: fullScaleFromSensitivity(sensitivity, input),
            method: `figures, ${sensitivity} mV/Pa into ${input} V`,
          },
    );
  };
  const now = { kind, dbfs, mv, volts };
  const wrong = (text: string, min: number, max: number, unit: string) =>
    text.trim() === '' || within(text, min, max) !== null ? undefined : `A number from ${min} to ${max} ${unit}.`;
  return (
    <div className="calibrate">
      <Choice
        legend="What the data sheet says"
        columns={2}
        options={[
          { value: 'digital', label: 'Reading at 94 dB', small: 'USB and digital microphones' },
          { value: 'analogue', label: 'Millivolts per pascal', small: 'with the input\u2019s full scale' },
        ]}
        value={kind}
        onChange={(value) => {
          setKind(value);
          tell({ ...now, kind: value });
        }}
      />
      {kind === 'digital' ? (
        <Field
          label="Reads at 94 dB SPL, dBFS"
          hint="As data sheets count: a full-scale sine is 0 dBFS."
          wrong={wrong(dbfs, -80, 0, 'dBFS')}
        >
          {(given) => (
            <input
              {...given}
              inputMode="text"
              value={dbfs}
              placeholder="−26"
              onChange={({ target }) => {
                setDbfs(target.value);
                tell({ ...now, dbfs: target.value });
              }}
            />
          )}
        </Field>
      ) : (
        <div className="two">
          <Field label="Sensitivity, mV/Pa" wrong={wrong(mv, 0.01, 1000, 'mV/Pa')}>
            {(given) => (
              <input
                {...given}
                inputMode="decimal"
                value={mv}
                onChange={({ target }) => {
                  setMv(target.value);
                  tell({ ...now, mv: target.value });
                }}
              />
            )}
          </Field>
          <Field label="Largest sine of the input, V RMS" wrong={wrong(volts, 0.001, 100, 'V')}>
            {(given) => (
              <input
                {...given}
                inputMode="decimal"
                value={volts}
                onChange={({ target }) => {
                  setVolts(target.value);
                  tell({ ...now, volts: target.value });
                }}
              />
            )}
          </Field>
        </div>
      )}
      <p className="said">
        Figures are good to a decibel or two, and only as long as nobody turns the input’s gain. A calibrator is better.
      </p>
    </div>
  );
}

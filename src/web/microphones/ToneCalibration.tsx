// Calibration by a calibrator: it is put over the microphone, its tone stands still, its level is known.
import { useEffect, useRef, useState } from 'react';
import { fixedText } from '../../charts/number-words.ts';
import { type Capture, openCapture } from '../audio/capture.ts';
import { microphoneRefusal } from '../audio/devices.ts';
import { Choice } from '../parts/Choice.tsx';
import { Facts } from '../parts/Facts.tsx';
import { Finding } from '../parts/Finding.tsx';
import { Icon } from '../parts/Icon.tsx';
import { useNumbers } from '../settings.ts';
import { type ToneState, toneWaits, toneWatch } from './full-scale.ts';

export interface ToneHeard {
  knownDb: number;
  toneHz: number;
  levelDbfs: number;
  /** The device, as the browser names it. */
  label: string;
}

interface ToneCalibrationProps {
  inputId: string | null;
  /** Null while the tone cannot be taken. */
  onTone: (tone: ToneHeard | null) => void;
}

const showEveryS = 0.2;

export function ToneCalibration({ inputId, onTone }: ToneCalibrationProps) {
  const style = useNumbers();
  const [knownDb, setKnownDb] = useState<'94' | '114'>('94');
  const [toneHz, setToneHz] = useState<'1000' | '250'>('1000');
  const [tone, setTone] = useState<ToneState | null>(null);
  const [label, setLabel] = useState('');
  const [refusal, setRefusal] = useState<{ message: string; mend: string } | null>(null);
  const capture = useRef<Capture | null>(null);
  const stop = () => {
    void capture.current?.end();
    capture.current = null;
    setTone(null);
  };
  useEffect(
    () => () => {
      void capture.current?.end();
    },
    [],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: told when what was heard or said changes
  useEffect(() => {
    const ready = tone !== null && toneWaits(tone) === null;
    onTone(ready ? { knownDb: Number(knownDb), toneHz: Number(toneHz), levelDbfs: tone.levelDbfs, label } : null);
  }, [tone, knownDb, toneHz, label]);
  const listen = async () => {
    stop();
    setRefusal(null);
    const watch = toneWatch(Number(toneHz));
    let shownS = 0;
    try {
      const opened = await openCapture({
        deviceId: inputId,
        spectrum: { fraction: 3, fromHz: 50, toHz: 16_000 },
        events: {
          onApplied: (applied) => setLabel(applied.label),
          onBands: ({ momentDb, fHz, seconds }) => {
            const now = watch.feed(momentDb, fHz, seconds);
            if (seconds - shownS < showEveryS) return;
            shownS = seconds;
            setTone(now);
          },
          onGone: () => setRefusal({ message: 'The microphone went away.', mend: 'Plug it in and listen again.' }),
        },
      });
      capture.current = opened;
      setLabel(opened.applied.label);
    } catch (error) {
      setRefusal(microphoneRefusal(error));
    }
  };
  const waits = tone === null ? null : toneWaits(tone);
  return (
    <div className="calibrate">
      <div className="two">
        <Choice
          legend="Level of the calibrator, dB SPL"
          columns={2}
          options={[
            { value: '94', label: '94' },
            { value: '114', label: '114' },
          ]}
          value={knownDb}
          onChange={setKnownDb}
        />
        <Choice
          legend="Its tone"
          columns={2}
          options={[
            { value: '1000', label: '1 kHz' },
            { value: '250', label: '250 Hz' },
          ]}
          value={toneHz}
          onChange={(value) => {
            stop();
            setToneHz(value);
          }}
        />
      </div>
      <div>
        {tone === null ? (
          <button type="button" className="btn" onClick={() => void listen()}>
            <Icon name="microphone" />
            Listen for the tone
          </button>
        ) : (
          <button type="button" className="btn" onClick={stop}>
            <Icon name="halt" />
            Let it go
          </button>
        )}
      </div>
      {refusal ? <Finding severity="stop" word="not heard" message={refusal.message} mend={refusal.mend} /> : null}
      {tone === null ? (
        <p className="said">
          Push the calibrator over the microphone, switch it on, and listen. Five still seconds are enough.
        </p>
      ) : (
        <>
          <p className={`tone-state ${waits === null ? 'ok' : 'note'}`} role="status">
            <Icon name={waits === null ? 'ok' : 'note'} />
            {waits === null ? 'The tone stands still.' : `Not yet: ${waits}.`}
          </p>
          <Facts
            label="The tone"
            rows={[
              ['Reads', `${fixedText(tone.levelDbfs, 2, style)} dBFS`],
              ['Wanders', Number.isFinite(tone.wanderDb) ? `${fixedText(tone.wanderDb, 2, style)} dB` : null],
              ['Over the loudest other band', `${fixedText(tone.aboveOthersDb, 0, style)} dB`],
            ]}
          />
        </>
      )}
    </div>
  );
}

// What listens: the microphone, what the browser really does with it, and its level now.
import { fixedText } from '../../charts/number-words.ts';
import type { Microphone } from '../api-client.ts';
import { type AppliedInput, appliedChecks } from '../audio/applied.ts';
import { useDevices } from '../audio/devices.ts';
import type { LevelNow } from '../audio/level-meter.ts';
import { Field } from '../parts/Field.tsx';
import { Icon } from '../parts/Icon.tsx';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import { microphoneOf } from '../shop/microphones.ts';
import { LevelBar, levelWord } from './LevelBar.tsx';

export interface ListeningState {
  applied: AppliedInput | null;
  level: LevelNow | null;
  refusal: { message: string; mend: string } | null;
}

interface RecorderPanelProps {
  inputId: string | null;
  onInput: (inputId: string | null) => void;
  listening: ListeningState;
  onListen: () => void;
  onStop: () => void;
  microphones: readonly Microphone[];
}

export function RecorderPanel({ inputId, onInput, listening, onListen, onStop, microphones }: RecorderPanelProps) {
  const style = useNumbers();
  const { applied, level, refusal } = listening;
  const { inputs } = useDevices(applied?.deviceId ?? null);
  const known = applied ? microphoneOf(microphones, applied.label) : null;
  return (
    <section className="recorder" aria-label="What listens">
      <h2 className="h2s">What listens</h2>
      <div className="choose">
        <Field label="Microphone">
          {(given) => (
            <select {...given} value={inputId ?? ''} onChange={({ target }) => onInput(target.value || null)}>
              <option value="">As the computer is set</option>
              {inputs.map(({ deviceId, label }) => (
                <option key={deviceId} value={deviceId}>
                  {label}
                </option>
              ))}
            </select>
          )}
        </Field>
        {applied ? (
          <button type="button" className="btn" onClick={onStop}>
            <Icon name="halt" />
            Let it go
          </button>
        ) : (
          <button type="button" className="btn" onClick={onListen}>
            <Icon name="microphone" />
            Listen
          </button>
        )}
      </div>
      {refusal ? (
        <p className="refusal" role="alert">
          <b>{refusal.message}</b> {refusal.mend}
        </p>
      ) : null}
      {applied && level ? (
        <>
          <LevelBar level={level} style={style} />
          <p className="unseen" role="status">
            {`Level: ${levelWord(level)}`}
          </p>
        </>
      ) : (
        <p className="said still">
          {refusal
            ? ''
            : 'Nothing is heard until you press Listen or start the take. Echo cancellation, noise suppression and automatic gain are asked to be off.'}
        </p>
      )}
      {applied ? (
        <ul className="ql">
          {appliedChecks(applied).map(({ severity, name, value, small }) => (
            <li key={name} className={severity}>
              <Icon name={severity} />
              <b>{name}</b>
              <span className="num">{value}</span>
              <small>{small}</small>
            </li>
          ))}
          <li className={known?.fullScaleSplDb === undefined ? 'note' : 'ok'}>
            <Icon name={known?.fullScaleSplDb === undefined ? 'note' : 'ok'} />
            <b>Level</b>
            <span className="num">
              {known?.fullScaleSplDb === undefined || !level
                ? 'relative'
                : `${fixedText(level.rmsDbfs + known.fullScaleSplDb, 0, style)} dB SPL`}
            </span>
            <small>
              {known?.fullScaleSplDb === undefined ? (
                <button type="button" className="linky" onClick={() => goTo({ page: 'microphones' })}>
                  calibrate this microphone
                </button>
              ) : (
                (known.method ?? 'calibrated')
              )}
            </small>
          </li>
        </ul>
      ) : null}
    </section>
  );
}

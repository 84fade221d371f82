// One take of the hunt: dropped, chosen or recorded; the revs beside it where the engine runs.
import type { ChangeEvent } from 'react';
import { fixedText } from '../../charts/number-words.ts';
import type { TakeRole } from '../../measurement/noise-hunt/hunt-step.ts';
import type { HuntedTake } from '../../measurement/noise-hunt/noise-hunt.ts';
import { DropZone } from '../parts/DropZone.tsx';
import { Field } from '../parts/Field.tsx';
import { Icon } from '../parts/Icon.tsx';
import { SeverityMark } from '../parts/Severity.tsx';
import { fileName, saveFile } from '../parts/save-file.ts';
import { trueMinus } from '../parts/true-minus.ts';
import { useNumbers } from '../settings.ts';
import { takeNames } from './hunt-words.ts';
import type { HuntTake } from './use-hunt.ts';

interface TakeSlotProps {
  role: TakeRole;
  take: HuntTake | undefined;
  read: HuntedTake | undefined;
  /** The take that is asked for next. */
  wanted: boolean;
  /** Seconds recorded so far while this one is being recorded; null else. */
  recordingS: number | null;
  /** Another one is being recorded. */
  held: boolean;
  onTake: (take: HuntTake | null) => void;
  onRecord: () => void;
  onStop: () => void;
  rpm?: { typed: string; wrong: string | undefined; onType: (text: string) => void };
}

export function TakeSlot(props: TakeSlotProps) {
  const { role, take, read, wanted, recordingS, held, onTake, onRecord, onStop, rpm } = props;
  const { name, how } = takeNames[role];
  const accept = (files: readonly File[]) => {
    const [file] = files;
    if (file) onTake({ name: file.name, wav: file });
  };
  const choose = ({ target }: ChangeEvent<HTMLInputElement>) => {
    accept([...(target.files ?? [])]);
    target.value = '';
  };
  const state = take === undefined ? 'empty' : read && !read.usable ? 'unusable' : 'there';
  return (
    <DropZone
      className={`slot ${state}${wanted ? ' wanted' : ''}`}
      label={`Take: ${name}`}
      take={role}
      onFiles={accept}
    >
      <h3>
        {name} <small>{how}</small>
      </h3>
      {take === undefined ? null : <Heard take={take} read={read} />}
      {rpm ? (
        <Field label="Revs, a minute" wrong={rpm.wrong}>
          {(field) => (
            <input
              {...field}
              inputMode="numeric"
              autoComplete="off"
              value={rpm.typed}
              onChange={({ target }) => rpm.onType(target.value)}
            />
          )}
        </Field>
      ) : null}
      <div className="row">
        {recordingS === null ? (
          <button type="button" className="btn" onClick={onRecord} disabled={held}>
            <Icon name="microphone" />
            Record<span className="unseen"> {name}</span>
          </button>
        ) : (
          <button type="button" className="btn on" onClick={onStop}>
            <Icon name="halt" />
            Stop, {recordingS.toFixed(0)} s
          </button>
        )}
        <label className="btn file">
          {take === undefined ? 'Choose a WAV' : 'Another WAV'}
          <span className="unseen"> for {name}</span>
          <input type="file" accept=".wav,audio/wav,audio/x-wav" onChange={choose} />
        </label>
        {take === undefined ? null : (
          <>
            {take.wav instanceof File ? null : (
              <button type="button" className="linky" onClick={() => saveFile(`${fileName(name)}.wav`, take.wav)}>
                Save<span className="unseen"> {name}</span>
              </button>
            )}
            <button type="button" className="linky" onClick={() => onTake(null)}>
              Take out<span className="unseen"> {name}</span>
            </button>
          </>
        )}
      </div>
    </DropZone>
  );
}

function Heard({ take, read }: { take: HuntTake; read: HuntedTake | undefined }) {
  const style = useNumbers();
  if (!read) return <p className="heard">{take.name}</p>;
  if (read.problem) {
    return (
      <p className="heard">
        <SeverityMark severity="stop">not usable</SeverityMark> {trueMinus(read.problem.message)}
      </p>
    );
  }
  const level = read.aWeightedDb === null ? '' : `, A-weighted ${fixedText(read.aWeightedDb, 1, style)} dB`;
  return (
    <p className="heard">
      {take.name}
      <small>
        {fixedText(read.durationS, 1, style)} s{trueMinus(level)}
      </small>
    </p>
  );
}

// A caution that a named person ticks before the work behind it: the journal keeps who and when.
import { useState } from 'react';
import type { Command } from '../../job/commands/commands.ts';
import type { JobView } from '../api-client.ts';
import { Field } from '../parts/Field.tsx';
import { Icon } from '../parts/Icon.tsx';
import { whenText } from '../parts/times.ts';
import { trueMinus } from '../parts/true-minus.ts';
import { changeSettings, useSettings } from '../settings.ts';
import type { Caution } from './loom-words.ts';

const about = (id: string) => `gate ${id}`;

/** Who ticked a gate and when; the last one counts. */
export function tickedGate({ job }: JobView, id: string) {
  return job.notes.findLast((note) => note.about === about(id));
}

interface GateProps {
  view: JobView;
  gate: Caution & { done: string };
  wish: (...commands: Command[]) => Promise<boolean>;
}

export function Gate({ view, gate, wish }: GateProps) {
  const { who: known } = useSettings();
  const [who, setWho] = useState(known);
  const [shown, setShown] = useState(false);
  const ticked = tickedGate(view, gate.id);
  const tick = () => {
    setShown(true);
    const name = who.trim();
    if (name === '') return;
    changeSettings({ who: name });
    void wish({ command: 'addNote', text: `${gate.done}.`, about: about(gate.id) });
  };
  return (
    <div className={`gate${ticked ? ' ticked' : ''}`}>
      <p>{trueMinus(gate.text)}</p>
      {ticked ? (
        <p className="by">
          <Icon name="ok" />
          <b>{gate.done}</b>: {ticked.who}, {whenText(ticked.when, new Date())}
        </p>
      ) : (
        <div className="tick">
          {known === '' ? (
            <Field label="Who says so" wrong={shown && who.trim() === '' ? 'Give a name or initials.' : undefined}>
              {(given) => (
                <input {...given} value={who} maxLength={80} onChange={({ target }) => setWho(target.value)} />
              )}
            </Field>
          ) : null}
          <button type="button" className="btn" onClick={tick}>
            {gate.done}
          </button>
        </div>
      )}
    </div>
  );
}

import { useState } from 'react';
import type { Command } from '../../job/commands/commands.ts';
import { Field } from '../parts/Field.tsx';
import { whenText } from '../parts/times.ts';
import type { Take } from './reading-state.ts';

/** What people said about a take, and a line to say more. */
export function NotesOnTake({ take, wish }: { take: Take; wish: (...commands: Command[]) => Promise<boolean> }) {
  const [note, setNote] = useState('');
  const add = async () => {
    const text = note.trim();
    if (text !== '' && (await wish({ command: 'noteTake', take: take.take, note: text }))) setNote('');
  };
  return (
    <section className="take-notes" aria-label="Notes on this take">
      {take.notes.map(({ entry, text, who, when }) => (
        <blockquote key={entry}>
          {text}
          <small>
            {who}, {whenText(when, new Date())}
          </small>
        </blockquote>
      ))}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void add();
        }}
      >
        <Field label="Note on this take">
          {(given) => (
            <input {...given} value={note} maxLength={10_000} onChange={({ target }) => setNote(target.value)} />
          )}
        </Field>
        <button type="submit" className="btn">
          Write it down
        </button>
      </form>
    </section>
  );
}

// What was asked for and noted, and a line to note more.
import { useState } from 'react';
import type { Command } from '../../job/commands/commands.ts';
import type { JobView } from '../api-client.ts';
import { Field } from '../parts/Field.tsx';
import { whenText } from '../parts/times.ts';

interface NotesOnCardProps {
  view: JobView;
  wish: (...commands: Command[]) => Promise<boolean>;
}

export function NotesOnCard({ view, wish }: NotesOnCardProps) {
  const [text, setText] = useState('');
  const now = new Date();
  const add = async () => {
    const note = text.trim();
    if (note !== '' && (await wish({ command: 'addNote', text: note }))) setText('');
  };
  return (
    <section className="card-notes" aria-label="Asked for and noted">
      <h2 className="h2s">Asked for and noted</h2>
      {view.job.notes.map((note) => (
        <blockquote key={note.entry} className={note.about === 'asked for' ? 'ow' : ''}>
          {note.text}
          <small>
            {note.who}, {whenText(note.when, now)}
            {note.about && note.about !== 'asked for' ? `, about ${note.about}` : ''}
          </small>
        </blockquote>
      ))}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void add();
        }}
      >
        <Field label="Note something">
          {(given) => (
            <input {...given} value={text} maxLength={10_000} onChange={({ target }) => setText(target.value)} />
          )}
        </Field>
        <button type="submit" className="btn">
          Write it down
        </button>
      </form>
    </section>
  );
}

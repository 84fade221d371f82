// Who accepts a finding, and why: both stand in the journal and in the report.
import { useState } from 'react';
import { TextField } from '../parts/TextField.tsx';
import { useSettings } from '../settings.ts';

interface AcceptFormProps {
  onAccept: (who: string, why: string) => void;
  onCancel: () => void;
}

export function AcceptForm({ onAccept, onCancel }: AcceptFormProps) {
  const settings = useSettings();
  const [who, setWho] = useState(settings.who);
  const [why, setWhy] = useState('');
  const [shown, setShown] = useState(false);
  const missing = (text: string, words: string) => (shown && text.trim() === '' ? words : undefined);
  return (
    <form
      className="accept"
      onSubmit={(event) => {
        event.preventDefault();
        setShown(true);
        if (who.trim() !== '' && why.trim() !== '') onAccept(who.trim(), why.trim());
      }}
    >
      <TextField
        label="Who accepts it"
        wrong={missing(who, 'Give a name or initials.')}
        value={who}
        maxLength={80}
        onChange={setWho}
      />
      <TextField
        label="Why it may stay"
        wrong={missing(why, 'Say why; it stands in the report.')}
        value={why}
        maxLength={2000}
        onChange={setWhy}
      />
      <button type="submit" className="btn">
        Accept it so
      </button>
      <button type="button" className="btn" onClick={onCancel}>
        Leave it open
      </button>
    </form>
  );
}

// A mark found on the car: where it is in words, and a photo of it.
import { useState } from 'react';
import type { CheckStage } from '../../job/check-in/check-forms.ts';
import { nextMark } from '../../job/check-in/checks.ts';
import type { JobView } from '../api-client.ts';
import { TextField } from '../parts/TextField.tsx';
import { stageWords } from './check-words.ts';
import { PhotoInput } from './PhotoInput.tsx';
import type { Checking } from './use-check.ts';

export function AddMark({ view, at, checking }: { view: JobView; at: CheckStage; checking: Checking }) {
  const [words, setWords] = useState('');
  const check = nextMark(view.job.checks.map((one) => one.check));
  if (check === null) return null;
  const name = `Mark ${check.slice('mark-'.length)}`;
  const said = words.trim();
  const after = (kept: boolean) => {
    if (kept) setWords('');
  };
  return (
    <div className="add-mark">
      <TextField
        label={`${name}: what and where`}
        hint={at === 'refit' ? 'new since it came' : 'such as: scratch, left sill, 14 cm'}
        value={words}
        maxLength={500}
        onChange={setWords}
      />
      <div className="ways">
        <PhotoInput
          label={`Photograph ${name}`}
          busy={checking.busy}
          onPhoto={(file) =>
            void checking
              .photographed(check, `${name}, ${stageWords[at]}`, file, said === '' ? undefined : said)
              .then(after)
          }
        >
          Photo of it
        </PhotoInput>
        <button
          type="button"
          className="btn"
          disabled={checking.busy || said === ''}
          onClick={() => void checking.found(check, { how: 'seen', found: 'fault', words: said }).then(after)}
        >
          Keep it in words alone
        </button>
      </div>
    </div>
  );
}

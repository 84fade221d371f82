// The track as files: the sound for a phone or a USB stick, and the description that a reader needs years later.
import { useState } from 'react';
import type { TrackDescription } from '../../signals/track.ts';
import { makeTrack } from '../audio/made-track.ts';
import { Icon } from '../parts/Icon.tsx';
import { fileName, saveFile } from '../parts/save-file.ts';
import { durationText } from '../parts/times.ts';
import { trackWords } from './take-wish.ts';

export function TrackFiles({ track, onFile }: { track: TrackDescription; onFile: () => void }) {
  const [share, setShare] = useState<number | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const name = fileName(`${trackWords(track)} ${track.code ?? ''}`);
  const save = async () => {
    setFault(null);
    setShare(0);
    try {
      const { wav } = await makeTrack(track, setShare);
      saveFile(`${name}.wav`, wav);
      onFile();
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error));
    } finally {
      setShare(null);
    }
  };
  const describe = () =>
    saveFile(`${name}.track.json`, new Blob([`${JSON.stringify(track, null, 1)}\n`], { type: 'application/json' }));
  return (
    <div className="files">
      <button type="button" className="btn" onClick={save} disabled={share !== null}>
        <Icon name="save" />
        {share === null
          ? `Take the sound, ${durationText(track.durationS)}`
          : `Making it, ${Math.round(share * 100)} %`}
      </button>
      <button type="button" className="btn" onClick={describe}>
        Take its description
      </button>
      {fault ? (
        <p className="wrong" role="alert">
          {fault}
        </p>
      ) : null}
    </div>
  );
}

// Takes a recording that was made elsewhere: dropped, or chosen. Its track is the one set above, one of the job, or dropped along.
import { useState } from 'react';
import type { TrackDescription } from '../../signals/track.ts';
import type { JobView } from '../api-client.ts';
import { DropZone, FileButton } from '../parts/DropZone.tsx';
import { whenText } from '../parts/times.ts';

/** Which track a dropped recording is of. */
export type DropTrack =
  | { from: 'above' }
  | { from: 'job'; sha256: string }
  | { from: 'file'; name: string; track: TrackDescription };

interface DropPanelProps {
  tracks: JobView['job']['tracks'];
  track: DropTrack;
  onTrack: (track: DropTrack) => void;
  onRecording: (file: File, track: DropTrack) => void;
}

/** A description among the files, if there is one that looks like it; the server looks closer. */
async function descriptionIn(files: readonly File[]): Promise<{ name: string; track: TrackDescription } | null> {
  for (const file of files) {
    if (!file.name.endsWith('.json')) continue;
    const track = JSON.parse(await file.text()) as Partial<TrackDescription>;
    if (track.schema !== 'kickpanel.track/1') throw new Error(`${file.name} does not describe a track.`);
    return { name: file.name, track: track as TrackDescription };
  }
  return null;
}

export function DropPanel({ tracks, track, onTrack, onRecording }: DropPanelProps) {
  const [fault, setFault] = useState<string | null>(null);
  const take = async (files: readonly File[]) => {
    setFault(null);
    try {
      const described = await descriptionIn(files);
      const chosen: DropTrack = described ? { from: 'file', ...described } : track;
      if (described) onTrack(chosen);
      const sound = files.find(({ name }) => !name.endsWith('.json'));
      if (sound) onRecording(sound, chosen);
      else if (!described) setFault('There was no recording among the files.');
    } catch (error) {
      setFault(error instanceof SyntaxError ? 'The description cannot be read.' : (error as Error).message);
    }
  };
  return (
    <DropZone className="drop-here" label="A recording made elsewhere" onFiles={take}>
      <p>
        <b>Recorded elsewhere?</b> Drop the WAV here, with its track description if you have it.
      </p>
      <div className="row">
        <FileButton text="Choose the recording" onFiles={take} />
        <label className="which">
          <span>The track that played</span>
          <select
            value={track.from === 'job' ? track.sha256 : track.from}
            onChange={({ target }) =>
              onTrack(target.value === 'above' ? { from: 'above' } : { from: 'job', sha256: target.value })
            }
          >
            <option value="above">As set here</option>
            {track.from === 'file' ? <option value="file">{track.name}</option> : null}
            {tracks.map(({ track: sha256, name, kind, when, durationS }) => (
              <option key={sha256} value={sha256}>
                {name ?? kind}, {Math.round(durationS)} s, {whenText(when, new Date())}
              </option>
            ))}
          </select>
        </label>
      </div>
      {fault ? (
        <p className="wrong" role="alert">
          {fault}
        </p>
      ) : null}
    </DropZone>
  );
}

// A WAV file opened as a recording for as long as somebody uses it.
import { failure, type Issue, type Result, success } from '../base/result.ts';
import { readWav, type WavReading } from '../signals/wav/read-wav.ts';
import { openFileSource } from './file-source.ts';

export interface OpenWav extends WavReading {
  close: () => void;
}

/** The reader of the bytes does not know the file's name; a person needs it first. */
function namedIn(path: string): (issue: Issue) => Issue {
  return (issue) => ({ ...issue, where: issue.where === undefined ? path : `${path}, ${issue.where}` });
}

/** Opens `path` as a recording. Whoever gets it closes it. */
export function openWavFile(path: string): Result<OpenWav> {
  const source = openFileSource(path);
  if (!source.ok) return source;
  const reading = readWav(source.value);
  if (reading.ok) return success({ ...reading.value, close: () => source.value.close() });
  source.value.close();
  return failure(...reading.issues.map(namedIn(path)));
}

// What a person reads who opens an archive without the program: what lies where, and which file is which take.
import type { Head } from '../../job/chain.ts';
import type { JobState } from '../../job/projections/job-state.ts';
import { photoPath, recordingPath, trackPath } from './manifest.ts';

function coverText(covers: JobState['takes'][number]['covers']): string {
  const open = covers.filter(({ state }) => state !== 'fastened');
  return open.length === 0
    ? ''
    : `, with ${open.map(({ cover, state }) => `${cover} ${state}`).join(', ')}: not the car as it is driven`;
}

/** The README of an archive; it holds no personal data. */
export function archiveReadme(state: JobState, head: Head, exportedWhen: string): string {
  const takes = state.takes.map((take) => {
    const place = take.place === undefined ? '' : `, ${take.place}`;
    const aside = take.kept ? '' : ' (set aside)';
    return `${take.when}  ${take.name}${aside}${place}${coverText(take.covers)}
    sound       ${recordingPath(take.recording)}
    was playing ${trackPath(take.track)}`;
  });
  const photos = state.photos.map(({ when, name, photo, type }) => `${when}  ${name}\n    ${photoPath(photo, type)}`);
  const vehicle = [state.vehicle.name, state.vehicle.bodyType].filter(Boolean).join(', ');
  return `Job ${state.number === undefined ? '' : `${state.number}, `}${state.name}
${vehicle === '' ? '' : `Vehicle: ${vehicle}\n`}Exported ${exportedWhen} by Kickpanel

entries.jsonl   the journal: everything that was done, one entry a line, as JSON, in the order in which it was written.
                Each entry carries the SHA-256 of the one before (previousHash) and its own (hash): the SHA-256 of the
                entry without "hash", spelled as RFC 8785 (JSON Canonicalization Scheme) says.
recordings/     the recordings as they came in, WAV files named by the SHA-256 of their content
tracks/         the test tracks that were played: what they consist of (.json) and, where they can be made anew,
                their sound (.wav)
photos/         what was photographed, JPEG or PNG files named by the SHA-256 of their content, as they came in
personal.jsonl  owner, plate, telephone number and complaint, if they were exported. The journal holds only a hash of each: the
                SHA-256 of the record's salt, a line feed, and its value. So they can be erased and the journal still
                holds.
job.json        what is in here, with the size and SHA-256 of every file

The journal has ${head.entries} entries and ends with the hash
${head.hash}
Whoever keeps this hash elsewhere, on paper for instance, can prove later that nothing before it was changed:
"kickpanel job verify FILE.zip --hash ${head.hash.slice(0, 8)}..."

Takes
${takes.length === 0 ? 'none' : takes.join('\n')}

Photos
${photos.length === 0 ? 'none' : photos.join('\n')}
`;
}

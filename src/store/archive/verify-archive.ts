// Proof of an archive: its journal, its files, and what it says about itself.
import type { Result } from '../../base/result.ts';
import { success } from '../../base/result.ts';
import type { Entry } from '../../job/entries.ts';
import type { PersonalRecord } from '../../job/personal.ts';
import { personalReferences } from '../../job/projections/personal-references.ts';
import type { Verification } from '../../job/verification.ts';
import { type VerifyOptions, verified } from '../verify-job.ts';
import { manifestPath, pathsOf } from './manifest.ts';
import { type Archive, openArchive } from './read-archive.ts';

/** Hashes everything in the archive at `path` again and names what is not as it was written. */
export async function verifyArchive(path: string, options: VerifyOptions = {}): Promise<Result<Verification>> {
  const archive = await openArchive(path);
  if (!archive.ok) return archive;
  try {
    return success(await verifiedArchive(archive.value, options));
  } finally {
    archive.value.close();
  }
}

/** The same for an archive that is open. Entries come first, so that the first altered one is named first. */
export async function verifiedArchive(archive: Archive, options: VerifyOptions = {}): Promise<Verification> {
  const { manifest, entries } = archive;
  const hashes = new Map<string, Promise<string | null>>();
  const hashOf = (path: string): Promise<string | null> => {
    const hash = hashes.get(path) ?? archive.hashOf(path).catch(() => 'unreadable');
    hashes.set(path, hash);
    return hash;
  };
  const proof = await verified(
    {
      job: manifest.job,
      entries,
      head: manifest.head,
      records: manifest.personal === 'included' ? archive.records : leftOut(manifest.job, entries),
      hashOf: (kind, hash) => {
        const path = pathsOf(kind, hash).find(archive.has);
        return path === undefined ? Promise.resolve(null) : hashOf(path);
      },
    },
    options,
  );
  const faults = [...proof.faults];
  const named = new Set(faults.map(({ where }) => where));
  for (const { path, sha256 } of manifest.files) {
    if (path === manifestPath || named.has(sha256)) continue;
    const got = await hashOf(path);
    if (got === sha256) continue;
    if (got === null) faults.push({ code: 'file-missing', message: `The file ${path} is missing.`, where: path });
    else faults.push({ code: 'file-altered', message: `The file ${path} is not as it was exported.`, where: path });
  }
  return { ...proof, whole: faults.length === 0, faults };
}

/** Where personal data were left out, every reference stands for an empty record. */
function leftOut(job: string, entries: readonly unknown[]): PersonalRecord[] {
  const readable = entries.filter((entry): entry is Entry => typeof (entry as Entry | null)?.kind === 'string');
  return [...personalReferences(readable)].map(([id, { kind }]) => ({ id, job, kind, salt: null, value: null }));
}

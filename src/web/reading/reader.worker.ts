// The reader in a worker of the page.
import { readTake } from '../../measurement/read-take.ts';
import { byteSourceFromArray } from '../../signals/recording.ts';
import { readWav } from '../../signals/wav/read-wav.ts';
import type { ReaderReport, ReadRequest } from './reader-messages.ts';

const scope = self as unknown as {
  postMessage(report: ReaderReport): void;
  onmessage: ((event: MessageEvent<ReadRequest>) => void) | null;
};

const tellEveryMs = 50;

async function read({ wav, track, options }: ReadRequest): Promise<ReaderReport> {
  const opened = readWav(byteSourceFromArray(new Uint8Array(await wav.arrayBuffer())));
  if (!opened.ok) return { say: 'refused', issue: opened.issues[0] };
  let toldMs = 0;
  const { reading, impulse } = readTake(opened.value.recording, track, options, {
    onProgress(share, doing) {
      if (performance.now() - toldMs < tellEveryMs) return;
      toldMs = performance.now();
      scope.postMessage({ say: 'progress', share, doing });
    },
  });
  return { say: 'done', reading, impulse };
}

scope.onmessage = ({ data }) => {
  read(data).then(
    (report) => scope.postMessage(report),
    (error: unknown) =>
      scope.postMessage({ say: 'failed', message: error instanceof Error ? error.message : String(error) }),
  );
};

// Reads an impedance sweep beside the page: the fit takes most of a second.
import type { ImpedanceReport, ImpedanceRequest } from './impedance-messages.ts';
import { readFiles } from './read-files.ts';

const scope = self as unknown as {
  postMessage(report: ImpedanceReport): void;
  onmessage: ((event: MessageEvent<ImpedanceRequest>) => void) | null;
};

async function read({ wavs, circuit }: ImpedanceRequest): Promise<ImpedanceReport> {
  const files = await Promise.all(wavs.map(async (wav) => new Uint8Array(await wav.arrayBuffer())));
  const found = readFiles(files, circuit);
  return found.ok ? { say: 'done', reading: found.value } : { say: 'refused', issues: found.issues };
}

scope.onmessage = ({ data }) => {
  read(data).then(
    (report) => scope.postMessage(report),
    (error: unknown) =>
      scope.postMessage({ say: 'failed', message: error instanceof Error ? error.message : String(error) }),
  );
};

// Reads a take in this browser, beside the page, with the very code that the server runs.
import type { ImpulseResponse, Reading } from '../../measurement/reading.ts';
import { ShopError } from '../shop/shop-error.ts';
import ReaderWorker from './reader.worker.ts?worker';
import type { ReaderReport, ReadRequest } from './reader-messages.ts';

export function readHere(
  request: ReadRequest,
  signal: AbortSignal,
  onProgress: (share: number, doing: string) => void,
): Promise<{ reading: Reading; impulse: ImpulseResponse | null }> {
  const worker = new ReaderWorker();
  signal.addEventListener('abort', () => worker.terminate());
  return new Promise<{ reading: Reading; impulse: ImpulseResponse | null }>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<ReaderReport>) => {
      if (data.say === 'progress') onProgress(data.share, data.doing);
      else if (data.say === 'done') resolve(data);
      else if (data.say === 'refused') reject(new ShopError({ ...data.issue, status: -1 }));
      else reject(new Error(data.message));
    };
    worker.onerror = ({ message }) => reject(new Error(message || 'the reading broke down'));
    worker.postMessage(request);
  }).finally(() => worker.terminate());
}

// The browser's own store: recordings in pieces, and wishes, until the shop's server has them. Works in a page and in a worker.

const name = 'kickpanel';
const version = 2;

export const stores = { takes: 'takes', pieces: 'pieces', wishes: 'wishes' } as const;

let opened: Promise<IDBDatabase> | undefined;

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name, version);
    request.onupgradeneeded = () => {
      const { objectStoreNames } = request.result;
      if (!objectStoreNames.contains(stores.takes)) {
        request.result.createObjectStore(stores.takes, { keyPath: 'id' });
        request.result.createObjectStore(stores.pieces);
      }
      if (!objectStoreNames.contains(stores.wishes)) request.result.createObjectStore(stores.wishes, { keyPath: 'id' });
    };
    request.onsuccess = () => {
      // Another page with a newer version must not be kept waiting by this one.
      request.result.onversionchange = () => request.result.close();
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error('another page holds the store in an older form'));
  });
}

export function database(): Promise<IDBDatabase> {
  opened ??= open().catch((error) => {
    opened = undefined;
    throw error;
  });
  return opened;
}

export function answer<Value>(request: IDBRequest<Value>): Promise<Value> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/**
 * Does `work` in one transaction; resolved once it is on disk, as far as the browser says so.
 *
 * @throws DOMException QuotaExceededError when the disk or the browser's share of it is full
 */
export async function transact<Value>(
  names: string[],
  mode: 'readonly' | 'readwrite',
  work: (transaction: IDBTransaction) => Promise<Value> | Value,
): Promise<Value> {
  const transaction = (await database()).transaction(names, mode, { durability: 'strict' });
  const ended = new Promise<void>((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error ?? new DOMException('the write was given up', 'AbortError'));
    transaction.onerror = () => reject(transaction.error);
  });
  const value = await work(transaction);
  await ended;
  return value;
}

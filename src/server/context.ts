// What the handlers work with.
import type { Workshop } from '../store/workshop.ts';
import type { CacheFolder } from './cache-folder.ts';
import type { ReadingDesk } from './reading-desk.ts';
import type { TaskRunner } from './task-runner.ts';

export interface ServerParts {
  workshop: Workshop;
  dataFolder: string;
  desk: ReadingDesk;
  runner: TaskRunner;
  cache: CacheFolder;
  version: string;
  readerVersion: string;
}

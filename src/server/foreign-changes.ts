// Entries that another program wrote into the same data folder, such as the command line: noticed by looking.
import type { Workshop } from '../store/workshop.ts';

/**
 * Looks twice a second whether others have written and announces what changed.
 *
 * @returns once it knows how things stood, so that whatever is written from then on is noticed; what ends it
 */
export async function watchForeignChanges(workshop: Workshop, everyMs = 400): Promise<() => void> {
  const { journals } = workshop;
  const known = new Map<string, string>();
  let mark: number | null = null;
  let looking = false;
  const forget = workshop.listen(({ job, head }) => known.set(job, head.hash));

  async function look(): Promise<void> {
    const now = await journals.changeMark();
    if (now === mark) return;
    const first = mark === null;
    const heads = await journals.heads();
    mark = now;
    for (const [job, head] of heads) {
      if (known.get(job) === head.hash) continue;
      known.set(job, head.hash);
      if (!first) workshop.announce({ job, head });
    }
  }

  await look().catch(() => {});
  const timer = setInterval(() => {
    if (looking) return;
    looking = true;
    // What cannot be read now is read at the next look; whoever asks for a job is told then.
    look()
      .catch(() => {})
      .finally(() => {
        looking = false;
      });
  }, everyMs);
  timer.unref();
  return () => {
    clearInterval(timer);
    forget();
  };
}

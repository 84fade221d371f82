// Handlers of what belongs to the shop: microphones, what this server is, news of jobs.
import { streamSSE } from 'hono/streaming';
import { parseMicrophoneCalibration } from '../../measurement/microphone-calibration.ts';
import { calibrateShopMicrophone, shopMicrophones } from '../../store/shop-journal.ts';
import type { Change } from '../../store/workshop.ts';
import { badNews } from '../answers.ts';
import type { Microphone } from '../api/shop.ts';
import type { ApiHandlers } from '../api.ts';
import type { ServerParts } from '../context.ts';
import { relayed } from '../relay.ts';

type ShopHandlers = Pick<
  ApiHandlers,
  'about' | 'listMicrophones' | 'calibrateMicrophone' | 'readCorrection' | 'watchJobs'
>;

export function shopHandlers({ workshop, dataFolder, version, readerVersion }: ServerParts): ShopHandlers {
  const microphones = async (): Promise<Microphone[]> =>
    (await shopMicrophones(workshop)).map(({ entry: _, ...microphone }) => microphone);
  return {
    about: async (context) =>
      context.json({ name: 'Kickpanel' as const, version, readerVersion, device: workshop.device, dataFolder }, 200),
    listMicrophones: async (context) => context.json({ microphones: await microphones() }, 200),
    async calibrateMicrophone(context) {
      const { id, who, ...data } = context.req.valid('json');
      const wish = { command: 'calibrateMicrophone', ...data } as const;
      const written = await calibrateShopMicrophone(workshop, { id, who, wish });
      if (!written.ok) return badNews(context, written.issues, 409);
      return context.json({ microphones: await microphones() }, 200);
    },
    async readCorrection(context) {
      const read = parseMicrophoneCalibration(await context.req.text());
      if (!read.ok) return badNews(context, read.issues, 422);
      const { fHz, deviationDb, notes, sensitivity } = read.value;
      const stated = sensitivity === undefined ? {} : { sensitivity };
      return context.json({ correction: { fHz, deviationDb }, notes, ...stated }, 200);
    },
    watchJobs: async (context) =>
      streamSSE(context, async (stream) => {
        await stream.writeSSE({ event: 'ready', data: '{}' });
        await relayed<Change>(
          stream,
          (push) => workshop.listen(push),
          ({ job, head }) => ({ event: 'changed', data: { job, ...head } }),
        );
      }),
  };
}

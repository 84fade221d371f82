import { beforeEach, describe, expect, test } from 'vitest';
import { jpegPhoto, pngPhoto } from '../../test/job/photos.ts';
import { does, keptPhotoOf, memoryWorkshop } from '../../test/job/workshops.ts';
import type { Command } from '../job/commands/commands.ts';
import { keepPhoto, keptPhoto, photoBytesMax } from './keep-photo.ts';
import type { Workshop } from './workshop.ts';
import { carryOut } from './write-entries.ts';

let workshop: Workshop;
beforeEach(async () => {
  workshop = memoryWorkshop();
  await does(workshop, 'j1', { command: 'createJob', name: 'x', purpose: 'car' });
});
const asked = (wish: Command, id = 'p1') => carryOut(workshop, 'j1', [{ id, who: 'Ann', wish }]);

describe('a photo', () => {
  test('is kept as it came, with its type and size', async () => {
    expect(await keepPhoto(workshop.content, [jpegPhoto(1, { widthPx: 40, heightPx: 30 })])).toMatchObject({
      value: { isNew: true, checked: { type: 'jpeg', widthPx: 40, heightPx: 30 } },
    });
    const png = await keepPhoto(workshop.content, [pngPhoto()]);
    const sha256 = png.ok ? png.value.sha256 : '';
    expect(await keptPhoto(workshop.content, sha256)).toEqual({ type: 'png', bytes: pngPhoto().length });
    expect(await keptPhoto(workshop.content, '0'.repeat(64))).toBeNull();
  });

  test('that is too large is refused as it comes, with what helps', async () => {
    let sent = 0;
    function* endless() {
      for (;;) {
        sent += 1e6;
        yield new Uint8Array(1e6);
      }
    }
    const refused = await keepPhoto(workshop.content, endless());
    expect(refused).toMatchObject({
      ok: false,
      issues: [{ code: 'too-large', mend: expect.stringContaining('megapixels') }],
    });
    expect(sent).toBeLessThanOrEqual(photoBytesMax + 1e6);
  });

  test('is entered only when its file is there, and as what it is', async () => {
    const wish = await keptPhotoOf(workshop, 1);
    const foreign = await keptPhotoOf(memoryWorkshop(), 2);
    expect(await asked(foreign)).toMatchObject({ issues: [{ code: 'photo-missing' }] });
    expect(await asked({ ...wish, type: 'png' } as Command)).toMatchObject({ issues: [{ code: 'photo-differs' }] });
    expect(await asked({ ...wish, bytes: 1 } as Command)).toMatchObject({ issues: [{ code: 'photo-differs' }] });
    expect(await asked(wish)).toMatchObject({ ok: true });
    expect(await asked(wish)).toMatchObject({ value: { appended: [], known: ['p1'] } });
  });
});

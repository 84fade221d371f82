// A cover on its way to fastened: what is unproven behind it is looked for before the journal has it.
import { type ComponentType, lazy, Suspense } from 'react';
import type { CoversAsked } from './covers-asked.ts';
import { FastenPlainly, type FastenSheetProps } from './FastenPlainly.tsx';

// Hold points are not part of the first load. A sheet that cannot be fetched leaves the answer to the journal.
const FastenSheet = lazy(async (): Promise<{ default: ComponentType<FastenSheetProps> }> => {
  try {
    await import('../plain-zod.ts');
    return { default: (await import('../proof/FastenSheet.tsx')).FastenSheet };
  } catch {
    return { default: FastenPlainly };
  }
});

interface FastenAskedProps extends Omit<FastenSheetProps, 'cover' | 'name' | 'onClose'> {
  covers: CoversAsked;
  nameOf: (cover: string) => string;
}

export function FastenAsked({ covers: { fastening, leaveFastening }, nameOf, ...more }: FastenAskedProps) {
  if (fastening === null) return null;
  return (
    <Suspense fallback={null}>
      <FastenSheet key={fastening} {...more} cover={fastening} name={nameOf(fastening)} onClose={leaveFastening} />
    </Suspense>
  );
}

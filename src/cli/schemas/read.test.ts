import { expectTypeOf, test } from 'vitest';
import type { z } from 'zod';
import type { Reading } from '../../measurement/reading.ts';
import type { readSchema } from './read.ts';

// Checked by the type check; at run time there is nothing to see.
test('the schema of read and the type of its answer say the same', () => {
  expectTypeOf<z.infer<typeof readSchema>>().toEqualTypeOf<Reading>();
});

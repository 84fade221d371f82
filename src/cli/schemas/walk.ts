// What `walk` takes, as JSON Schema.
import { z } from 'zod';
import { walkSchema } from '../../wiring/walk-request.ts';

export const walkJsonSchema = () => ({ ...z.toJSONSchema(walkSchema, { io: 'input' }), title: 'a channel walk' });

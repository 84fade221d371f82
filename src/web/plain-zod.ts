// Forms are checked without made-up functions: the page's own policy forbids them, and says so for every attempt.
import { config } from 'zod';

config({ jitless: true });

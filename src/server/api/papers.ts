// What of a job is printed: labels, lead list, fuse chart.
import { createRoute, z } from '@hono/zod-openapi';
import { jobPapers } from '../../report/job-papers.ts';
import { errorResponses } from './errors.ts';
import { jobParam } from './jobs.ts';

const addressDefault = 'http://localhost:4870';

export const printPaper = createRoute({
  method: 'get',
  path: '/api/jobs/{job}/papers/{paper}',
  summary: 'A paper of the job at true size, the same bytes as the command line writes',
  request: {
    params: jobParam.extend({ paper: z.enum(jobPapers) }),
    query: z.object({
      format: z.enum(['pdf', 'svg']).default('pdf'),
      sheet: z.coerce.number().int().min(1).max(1000).default(1).describe('of SVG, which has a file a sheet'),
      stock: z.enum(['sheet', 'roll']).default('sheet').describe('of labels'),
      address: z
        .url({ protocol: /^https?$/, message: 'an address of the app, such as http://localhost:4870' })
        .max(200)
        .default(addressDefault)
        .describe('of labels: where their codes open a lead'),
    }),
  },
  responses: {
    200: {
      description: 'the paper; `kickpanel-sheets` says how many sheets it has',
      content: {
        'application/pdf': { schema: z.string().openapi({ format: 'binary' }) },
        'image/svg+xml': { schema: z.string() },
      },
    },
    ...errorResponses,
  },
});

// Builds the command line into dist/: one entry and a chunk per command, so that --help loads almost nothing. The worker
// that reads takes is an entry of its own, because the server starts it by its file.
import { defineConfig } from 'vite';

export default defineConfig({
  publicDir: false,
  build: {
    target: 'node20',
    ssr: true,
    outDir: 'dist/cli',
    emptyOutDir: true,
    minify: false,
    rolldownOptions: {
      input: { main: 'src/cli/main.ts', 'reading-worker': 'src/server/reading-worker.ts' },
      output: { entryFileNames: '[name].mjs', chunkFileNames: '[name]-[hash].mjs' },
    },
  },
  // The store's library is a binary and stays where npm put it; everything else is bundled, so that loading is quick.
  ssr: { noExternal: true, external: ['libsql'] },
  logLevel: 'warn',
});

// Builds the command line into dist/: one entry and a chunk per command, so that --help loads almost nothing.
import { defineConfig } from 'vite';

export default defineConfig({
  publicDir: false,
  build: {
    target: 'node20',
    ssr: 'src/cli/main.ts',
    outDir: 'dist/cli',
    emptyOutDir: true,
    minify: false,
    rolldownOptions: { output: { entryFileNames: 'main.mjs', chunkFileNames: '[name]-[hash].mjs' } },
  },
  // The store's library is a binary and stays where npm put it; everything else is bundled, so that loading is quick.
  ssr: { noExternal: true, external: ['libsql'] },
  logLevel: 'warn',
});

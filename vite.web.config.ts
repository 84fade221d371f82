// Builds the page into dist/web: own chunks for the workers and the recorder, fonts and styles as files, nothing inlined,
// so that a policy of 'self' alone lets it run.
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: 'src/web',
  base: '/',
  plugins: [react()],
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  worker: { format: 'es' },
  server: { proxy: { '/api': 'http://127.0.0.1:4120' } },
  logLevel: 'warn',
});

// Builds the page into dist/web: own chunks for the workers and the recorder, fonts and styles as files, nothing inlined,
// so that a policy of 'self' alone lets it run.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

/** Writes the service worker with the list of what was built; another build gives it another name. */
function serviceWorker(): Plugin {
  return {
    name: 'kickpanel-service-worker',
    generateBundle(_, bundle) {
      const template = readFileSync('src/web/service-worker.js', 'utf8');
      // Letters that few need are fetched when they are needed.
      const built = Object.keys(bundle).filter(
        (file) => file.startsWith('assets/') && !/cyrillic|greek|vietnamese/.test(file),
      );
      const files = JSON.stringify(['/', '/icon.svg', ...built.map((file) => `/${file}`)]);
      const name = createHash('sha256').update(template).update(files).digest('hex').slice(0, 12);
      const source = template.replace('__NAME__', name).replace('__FILES__', files);
      this.emitFile({ type: 'asset', fileName: 'service-worker.js', source });
    },
  };
}

export default defineConfig({
  root: 'src/web',
  base: '/',
  plugins: [react(), serviceWorker()],
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  worker: { format: 'es' },
  server: { proxy: { '/api': 'http://127.0.0.1:4870' } },
  logLevel: 'warn',
});

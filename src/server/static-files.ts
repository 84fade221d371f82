// The pages: files of one folder, named by content where the build does so, and the first page for every other address.
import { readFile } from 'node:fs/promises';
import { extname, join, normalize, sep } from 'node:path';
import type { MiddlewareHandler } from 'hono';

const types: Record<string, string> = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json',
  '.map': 'application/json',
  '.mjs': 'text/javascript; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.wav': 'audio/wav',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
};

const missingPages = `<!doctype html><html lang="en"><title>Kickpanel</title><h1>The pages are not built.</h1>
<p>Run "npm ci" in the checkout; it builds them. The API is there: <a href="/api/openapi.json">/api/openapi.json</a></p></html>`;

/** A path inside `folder` for an address; null where the address leads out of it or names something hidden. */
export function pathWithin(folder: string, address: string): string | null {
  let decoded: string;
  try {
    decoded = decodeURIComponent(address);
  } catch {
    return null;
  }
  if (decoded.includes('\0') || decoded.split(/[\\/]/).some((part) => part.startsWith('.') && part !== '')) return null;
  const path = normalize(join(folder, decoded));
  return path.startsWith(folder + sep) ? path : null;
}

/** Serves `folder`. Files under `assets/` carry a hash in their name and never change. */
export function staticFiles(folder: string): MiddlewareHandler {
  return async (context, next) => {
    const { method, path: address } = context.req;
    if (method !== 'GET' && method !== 'HEAD') return next();
    const path = pathWithin(folder, address);
    const content = path === null || address.endsWith('/') ? null : await readFile(path).catch(() => null);
    if (content !== null) {
      const cache = address.startsWith('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache';
      const type = types[extname(address).toLowerCase()] ?? 'application/octet-stream';
      return context.body(new Uint8Array(content), 200, { 'content-type': type, 'cache-control': cache });
    }
    // A file that is not there is said not to be there; any other address is a place in the app.
    if (extname(address) !== '') return next();
    const page = await readFile(join(folder, 'index.html'), 'utf8').catch(() => missingPages);
    return context.html(page, 200, { 'cache-control': 'no-cache' });
  };
}

// Who may talk to the server, and what its pages may do: this computer, its own pages, and nobody else.
import type { MiddlewareHandler } from 'hono';
import { errorBody } from './answers.ts';

/** Names under which this computer reaches itself. */
const ownNames = ['127.0.0.1', 'localhost', '[::1]'];

/** Whether `host`, the name and port that a browser thinks it talks to, is this server. */
export function isOwnHost(host: string, port: number): boolean {
  return ownNames.some((name) => host === `${name}:${port}` || (port === 80 && host === name));
}

const readMethods = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Refuses calls under another name (421) and writes from pages of another origin (403).
 *
 * A page elsewhere can make a name point to this computer and then read what it likes; the name in the Host header gives
 * it away. Calls without an Origin do not come from a page of another site: browsers send it with every such write.
 *
 * @param port where the server listens, once that is known
 */
export function ownPagesOnly(port: () => number): MiddlewareHandler {
  return async (context, next) => {
    const host = context.req.header('host') ?? new URL(context.req.url).host;
    if (!isOwnHost(host.toLowerCase(), port())) {
      const message = `This server does not go by the name ${host}.`;
      const mend = `Open it as http://localhost:${port()}/.`;
      return context.json(errorBody([{ code: 'wrong-host', message, where: host, mend }]), 421);
    }
    const origin = context.req.header('origin');
    const site = context.req.header('sec-fetch-site');
    const foreignOrigin = origin !== undefined && !isOwnOrigin(origin, port());
    const foreignSite = site === 'cross-site' || site === 'same-site';
    if (!readMethods.has(context.req.method) && (foreignOrigin || foreignSite)) {
      const message = 'A page of another site may not write here.';
      const mend = 'Use the pages of this server, or the command line.';
      return context.json(errorBody([{ code: 'wrong-origin', message, where: origin ?? site ?? '', mend }]), 403);
    }
    return next();
  };
}

function isOwnOrigin(origin: string, port: number): boolean {
  return origin.startsWith('http://') && isOwnHost(origin.slice('http://'.length).toLowerCase(), port);
}

const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "media-src 'self' blob:",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const headers: Record<string, string> = {
  'content-security-policy': policy,
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'microphone=(self), camera=(self), geolocation=(), payment=(), usb=()',
  'referrer-policy': 'no-referrer',
  'x-content-type-options': 'nosniff',
};

/** Headers on every answer: pages load from here alone, ask nobody else, and cannot be framed. */
export function strictHeaders(): MiddlewareHandler {
  return async (context, next) => {
    await next();
    for (const [name, value] of Object.entries(headers)) context.res.headers.set(name, value);
    if (!context.res.headers.has('cache-control')) context.res.headers.set('cache-control', 'no-store');
  };
}

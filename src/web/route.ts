// Which screen an address names, and the address of a screen.

export type Route =
  | { page: 'bench' }
  | { page: 'new-job' }
  | { page: 'job'; job: string }
  | { page: 'take'; job: string; place: string | null; near?: boolean }
  | { page: 'takes'; job: string; compare: string[] }
  | { page: 'reading'; job: string; take: string }
  | { page: 'live'; job: string | null }
  | { page: 'plan'; job: string; part: string | null }
  | { page: 'loom'; job: string; lead: string | null }
  | { page: 'coils'; job: string; load: string | null }
  | { page: 'driver'; job: string; driver: string | null }
  | { page: 'box'; job: string; driver: string | null }
  | { page: 'vehicles'; job: string | null }
  | { page: 'hold-points'; job: string; cover: string | null }
  | { page: 'first-sound'; job: string }
  | { page: 'near-walk'; job: string }
  | { page: 'gains'; job: string }
  | { page: 'noise-hunt'; job: string }
  | { page: 'check-in'; job: string; at: 'arrive' | 'refit' }
  | { page: 'microphones' }
  | { page: 'settings' }
  | { page: 'unknown'; path: string };

export function routeOf(address: { pathname: string; search: string }): Route {
  const parts = address.pathname.split('/').filter(Boolean).map(decoded);
  const query = new URLSearchParams(address.search);
  const [first, job, third, take, ...more] = parts;
  const unknown: Route = { page: 'unknown', path: address.pathname };
  if (more.length > 0) return unknown;
  if (first === undefined) return { page: 'bench' };
  if (job === undefined) {
    if (first === 'new') return { page: 'new-job' };
    if (first === 'live') return { page: 'live', job: null };
    if (first === 'vehicles') return { page: 'vehicles', job: null };
    if (first === 'microphones' || first === 'settings') return { page: first };
    return unknown;
  }
  if (first !== 'jobs') return unknown;
  if (third === undefined) return { page: 'job', job };
  if (third === 'takes' && take !== undefined) return { page: 'reading', job, take };
  // What the code on a lead's label says.
  if (third === 'leads' && take !== undefined) return { page: 'loom', job, lead: take };
  if (take !== undefined) return unknown;
  if (third === 'take') {
    const near = query.has('near') ? { near: true } : {};
    return { page: 'take', job, place: query.get('place'), ...near };
  }
  if (third === 'live') return { page: 'live', job };
  if (third === 'vehicles') return { page: 'vehicles', job };
  if (third === 'hold-points') return { page: 'hold-points', job, cover: query.get('cover') };
  if (third === 'first-sound' || third === 'near-walk') return { page: third, job };
  if (third === 'gains') return { page: 'gains', job };
  if (third === 'noise-hunt') return { page: 'noise-hunt', job };
  if (third === 'arrive' || third === 'refit') return { page: 'check-in', job, at: third };
  if (third === 'plan') return { page: 'plan', job, part: query.get('part') };
  if (third === 'loom') return { page: 'loom', job, lead: null };
  if (third === 'coils') return { page: 'coils', job, load: query.get('load') };
  if (third === 'driver' || third === 'box') return { page: third, job, driver: query.get('driver') };
  if (third === 'takes')
    return { page: 'takes', job, compare: (query.get('compare') ?? '').split(',').filter(Boolean) };
  return unknown;
}

export function addressOf(route: Route): string {
  switch (route.page) {
    case 'bench':
      return '/';
    case 'new-job':
      return '/new';
    case 'job':
      return `/jobs/${encodeURIComponent(route.job)}`;
    case 'take': {
      const place = route.place === null ? [] : [`place=${encodeURIComponent(route.place)}`];
      const asked = [...place, ...(route.near ? ['near'] : [])].join('&');
      return `/jobs/${encodeURIComponent(route.job)}/take${asked === '' ? '' : `?${asked}`}`;
    }
    case 'takes': {
      const compare = route.compare.length === 0 ? '' : `?compare=${route.compare.map(encodeURIComponent).join(',')}`;
      return `/jobs/${encodeURIComponent(route.job)}/takes${compare}`;
    }
    case 'reading':
      return `/jobs/${encodeURIComponent(route.job)}/takes/${encodeURIComponent(route.take)}`;
    case 'live':
      return route.job === null ? '/live' : `/jobs/${encodeURIComponent(route.job)}/live`;
    case 'vehicles':
      return route.job === null ? '/vehicles' : jobAddress(route.job, 'vehicles', {});
    case 'plan':
      return jobAddress(route.job, 'plan', { part: route.part });
    case 'loom':
      return jobAddress(route.job, route.lead === null ? 'loom' : `leads/${encodeURIComponent(route.lead)}`, {});
    case 'hold-points':
      return jobAddress(route.job, 'hold-points', { cover: route.cover });
    case 'first-sound':
      return jobAddress(route.job, 'first-sound', {});
    case 'near-walk':
      return jobAddress(route.job, 'near-walk', {});
    case 'gains':
      return jobAddress(route.job, 'gains', {});
    case 'noise-hunt':
      return jobAddress(route.job, 'noise-hunt', {});
    case 'check-in':
      return jobAddress(route.job, route.at, {});
    case 'coils':
      return jobAddress(route.job, 'coils', { load: route.load });
    case 'driver':
    case 'box':
      return jobAddress(route.job, route.page, { driver: route.driver });
    case 'microphones':
      return '/microphones';
    case 'settings':
      return '/settings';
    case 'unknown':
      return route.path;
  }
}

/** A screen of a job, with what it looks at. */
function jobAddress(job: string, screen: string, at: Record<string, string | null>): string {
  const query = Object.entries(at).map(([name, id]) => (id === null ? '' : `?${name}=${encodeURIComponent(id)}`));
  return `/jobs/${encodeURIComponent(job)}/${screen}${query.join('')}`;
}

/** A mistyped percent sign is no reason to show nothing. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

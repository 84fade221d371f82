// Keeps the page itself at hand, so that it opens when the shop's server is away: takes that wait here can then be seen,
// read and saved. It keeps no answers of the server: what it said last may no longer be true.
// The build puts the list of files and its name in place of the two words below.

const name = 'kickpanel-__NAME__';
const files = __FILES__;

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(name)
      .then((cache) => cache.addAll(files))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((old) => old !== name).map((old) => caches.delete(old))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== 'GET' || address.origin !== self.location.origin || address.pathname.startsWith('/api/'))
    return;
  // Files named by their content never change; the first page is asked for anew as long as somebody answers.
  if (address.pathname.startsWith('/assets/')) {
    event.respondWith(caches.match(request).then((kept) => kept ?? fetch(request)));
  } else if (request.mode === 'navigate') {
    event.respondWith(fetch(request).catch(() => caches.match('/')));
  }
});

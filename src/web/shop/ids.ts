// Names for new things, as unlikely to come twice as 122 bits of chance make them.

export function newId(): string {
  // randomUUID is there on secure pages only, and the page also opens over a plain network address.
  if (typeof crypto.randomUUID === 'function') return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

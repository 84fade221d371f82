// The shop's microphones, and which of them a device is.
import type { Microphone } from '../api-client.ts';
import type { Resource } from './known-answers.ts';
import { useResource } from './resource.ts';
import { useShop } from './shop-context.ts';

export function useMicrophones(): Resource<Microphone[]> {
  const { api } = useShop();
  return useResource('microphones', () => api.microphones());
}

/** A device's label without what the browser adds to tell two ports of one device apart. */
export function deviceName(label: string): string {
  return label
    .replace(/\s*\([0-9a-f]{4}:[0-9a-f]{4}\)\s*$/i, '')
    .replace(/^Default - /, '')
    .trim()
    .slice(0, 120);
}

/** The calibrated microphone that a device is, by its name. */
export function microphoneOf(microphones: readonly Microphone[], label: string): Microphone | null {
  const name = deviceName(label);
  return name === '' ? null : (microphones.find((microphone) => microphone.name === name) ?? null);
}

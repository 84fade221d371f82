// What a person has set on this device: name, numbers, units, light. Kept in the browser, never sent.
import { useSyncExternalStore } from 'react';
import type { NumberStyle } from '../charts/number-words.ts';

export interface Settings {
  /** As the journal names who wrote; empty until asked. */
  who: string;
  decimal: '.' | ',';
  /** Lengths and cables. */
  units: 'metric' | 'imperial';
  theme: 'system' | 'daylight' | 'dim';
}

const place = 'kickpanel.settings';
const listeners = new Set<() => void>();

/** The decimal sign of the browser's language. */
function decimalHere(): '.' | ',' {
  return new Intl.NumberFormat(navigator.language).format(1.5).includes(',') ? ',' : '.';
}

function kept(): Partial<Settings> {
  try {
    return JSON.parse(localStorage.getItem(place) ?? '{}') as Partial<Settings>;
  } catch {
    return {};
  }
}

let settings: Settings = {
  who: '',
  decimal: decimalHere(),
  units: /-(US|LR|MM)$/.test(navigator.language) ? 'imperial' : 'metric',
  theme: 'system',
  ...kept(),
};

export function changeSettings(change: Partial<Settings>): void {
  settings = { ...settings, ...change };
  try {
    localStorage.setItem(place, JSON.stringify(settings));
  } catch {
    // A browser that keeps nothing still shows what was set, until it is closed.
  }
  showTheme();
  for (const listener of listeners) listener();
}

export function currentSettings(): Settings {
  return settings;
}

export function useSettings(): Settings {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => settings,
  );
}

export function useNumbers(): NumberStyle {
  return useSettings();
}

const systemIsDim = matchMedia('(prefers-color-scheme: dark)');

export function shownTheme(): 'daylight' | 'dim' {
  if (settings.theme !== 'system') return settings.theme;
  return systemIsDim.matches ? 'dim' : 'daylight';
}

/** Follows the person's choice, else the system, never the clock. */
export function showTheme(): void {
  document.documentElement.dataset.theme = shownTheme();
}

systemIsDim.addEventListener('change', showTheme);

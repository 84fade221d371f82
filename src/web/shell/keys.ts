// Keys that work on every screen. They press the buttons that are in sight, so that a key can do no more than a hand.

/** Elements that use these keys themselves. */
const takesKeys = 'input, select, textarea, button, a, summary, [role="slider"], [role="button"], [contenteditable]';

const press = (selector: string): boolean => {
  const button = document.querySelector<HTMLElement>(selector);
  button?.click();
  return button !== null;
};

/** Whether a key was used up. */
function keyPressed(event: KeyboardEvent): boolean {
  const target = event.target instanceof Element ? event.target : document.body;
  const typing = target.closest('input, select, textarea, [contenteditable]') !== null;
  const dialog = document.querySelector('dialog[open]');
  if (event.key === 'Escape' && !dialog) return press('[data-key="stop"]') || press('[data-key="back"]');
  if (dialog || typing) return false;
  if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z') return press('[data-key="undo"]');
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  if (event.key === '?') return press('[data-key="keys"]');
  if (target.closest(takesKeys)) return false;
  if (event.key === 'Enter') return press('[data-key="main"]');
  if (event.key === ' ') return press('[data-key="stop"]') || press('[data-key="play"]');
  return false;
}

export function listenForKeys(): () => void {
  const listen = (event: KeyboardEvent) => {
    if (!event.defaultPrevented && keyPressed(event)) event.preventDefault();
  };
  addEventListener('keydown', listen);
  return () => removeEventListener('keydown', listen);
}

import type { ReactNode } from 'react';

interface ScrollBoxProps {
  /** What a screen reader calls it. */
  label: string;
  className: string;
  children: ReactNode;
}

/** A part of the page that scrolls by itself, so the keyboard must reach it. */
export function ScrollBox({ label, className, children }: ScrollBoxProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys scroll only what has the focus
    <section className={className} tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}

// One drawing language for small signs: a 24-unit box, a 2-unit line. Drawn here because the fonts have no such letters.
import type { ReactNode } from 'react';

const signs = {
  'cover-off': <rect x="3" y="3" width="18" height="18" rx="2" className="st" strokeDasharray="3.2 3" />,
  'cover-resting': (
    <>
      <rect x="3" y="3" width="18" height="18" rx="2" className="st" />
      <path d="M4 13 13 4M4 20 20 4M11 20l9-9" className="st thin" />
    </>
  ),
  'cover-fastened': (
    <>
      <rect x="2.5" y="2.5" width="19" height="19" rx="2" className="fl st" />
      <g className="kn">
        <circle cx="7" cy="7" r="1.7" />
        <circle cx="17" cy="7" r="1.7" />
        <circle cx="7" cy="17" r="1.7" />
        <circle cx="17" cy="17" r="1.7" />
      </g>
    </>
  ),
  'cover-unknown': (
    <>
      <rect x="3" y="3" width="18" height="18" rx="2" className="st" strokeDasharray="1.2 3" />
      <path d="M9.5 9.5a2.6 2.6 0 1 1 3.6 2.4c-.8.4-1.1.9-1.1 1.8M12 17v.3" className="st" />
    </>
  ),
  // A tag on its string: hollow and loose, filled and ticked, torn and crossed.
  'tag-open': (
    <>
      <path d="M7 9.5h10v12H7zM7 9.5l2.500-3h5l2.500 3" className="st" />
      <path d="M12 11v.2M12 6.500C12 3 8.500 1 6.500 4" className="st" />
    </>
  ),
  'tag-sealed': (
    <>
      <path d="M7 9.5h10v12H7zM7 9.5l2.500-3h5l2.500 3z" className="fl st" />
      <path d="M12 6.500V2" className="st" />
      <path d="M9 15.500l2.200 2.200 3.800-4.400" className="sk thin-sk" />
    </>
  ),
  'tag-torn': (
    <>
      <path d="M7 18v-8.500l2.500-3h5l2.500 3V17l-2.500 2-2.500-2.500-2 3z" className="st" />
      <path d="M9.5 10.5l5 4.500M14.500 10.5l-5 4.500" className="st" />
    </>
  ),
  stop: (
    <>
      <path d="M8 2h8l6 6v8l-6 6H8l-6-6V8z" className="sf" />
      <path d="M7 12h10" className="sk" />
    </>
  ),
  fix: (
    <>
      <path d="M12 2.5 22.5 21.5h-21z" className="sf" />
      <path d="M12 9v6M12 17.5v1.5" className="sk" />
    </>
  ),
  note: (
    <>
      <circle cx="12" cy="12" r="9.5" className="so" />
      <path d="M12 11v6M12 7v1.5" className="si" />
    </>
  ),
  ok: (
    <>
      <circle cx="12" cy="12" r="10" className="sf" />
      <path d="M7 12.5l3.5 3.5 6.5-8" className="sk" />
    </>
  ),
  arrow: <path d="M4 12h15M13 5.5l6.5 6.5-6.5 6.5" className="st" />,
  undo: <path d="M9 4 4 9l5 5M4.5 9H15a5 5 0 0 1 0 10.5h-4" className="st" />,
  play: <path d="M7 4.5v15l12.5-7.5z" className="fc" />,
  halt: <rect x="5" y="5" width="14" height="14" className="fc" />,
  record: <circle cx="12" cy="12" r="7" className="fc" />,
  check: <path d="M4 13l5.5 5.5L20.5 6" className="st" />,
  sun: (
    <>
      <circle cx="12" cy="12" r="4.5" className="st" />
      <path
        d="M12 1.5v3M12 19.5v3M1.5 12h3M19.5 12h3M4.6 4.6l2.1 2.1M17.3 17.3l2.1 2.1M19.4 4.6l-2.1 2.1M6.7 17.3l-2.1 2.1"
        className="st"
      />
    </>
  ),
  settings: (
    <>
      <path d="M3 6h10M19 6h2M3 12h2M11 12h10M3 18h8M17 18h4" className="st" />
      <path d="M13 3.500v5h6v-5zM5 9.5v5h6v-5zM11 15.500v5h6v-5z" className="st" />
    </>
  ),
  microphone: (
    <>
      <path d="M9 4.500a3 3 0 0 1 6 0v7a3 3 0 0 1-6 0z" className="st" />
      <path d="M5.5 11a6.5 6.5 0 0 0 13 0M12 17.500v4M8.5 21.500h7" className="st" />
    </>
  ),
  driver: (
    <>
      <circle cx="12" cy="12" r="10" className="st" />
      <circle cx="12" cy="12" r="5.5" className="st" />
      <circle cx="12" cy="12" r="1.5" className="fc" />
    </>
  ),
  save: <path d="M12 3v12M7 10.5l5 5 5-5M4 20.500h16" className="st" />,
} satisfies Record<string, ReactNode>;

export type IconName = keyof typeof signs;

/** Beside a word, never instead of one: it is hidden from screen readers. */
export function Icon({ name, className = '' }: { name: IconName; className?: string }) {
  return (
    <svg className={`ic ${className}`} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      {signs[name]}
    </svg>
  );
}

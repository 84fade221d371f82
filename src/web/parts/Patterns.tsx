/** Hatchings that the plan view and the loom refer to; drawn once a page. */
export function Patterns() {
  return (
    <svg width="0" height="0" className="unseen" aria-hidden="true" focusable="false">
      <defs>
        <pattern id="p-wrap" width="9" height="20" patternUnits="userSpaceOnUse" patternTransform="skewX(-28)">
          <rect width="9" height="20" fill="var(--wrap)" />
          <path d="M.8 0V20" stroke="var(--wrap-line)" strokeWidth="1.6" />
        </pattern>
        <pattern id="p-hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M1 0V7" stroke="var(--hatch)" strokeWidth="1.4" />
        </pattern>
      </defs>
    </svg>
  );
}

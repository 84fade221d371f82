/** The way round the head that a moving microphone takes, as far as the time has gone. */
export function HeadPath({ share }: { share: number }) {
  const whole = 'M60 36C96 38 102 70 98 92C92 124 28 124 22 92C16 60 30 38 60 36';
  return (
    <svg
      className="path9"
      viewBox="0 0 120 150"
      role="img"
      aria-label={`The way round the head, ${Math.round(share * 100)} percent gone`}
    >
      <path d="M28 136Q60 152 92 136" className="rest" />
      <circle cx="60" cy="80" r="19" />
      <path d="M54 62L60 55L66 62" />
      <path className="td" d={whole} />
      <path className="dn2" d={whole} pathLength="1" strokeDasharray={`${Math.min(1, Math.max(0, share))} 1`} />
    </svg>
  );
}

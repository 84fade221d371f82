/** How far the reading of a take is: what is being done, and a share, never a spinner. */
export function ReadingProgressBar({ share, doing }: { share: number; doing: string }) {
  const percent = Math.round(share * 100);
  return (
    <div className="read-progress">
      <div
        role="progressbar"
        aria-label="Reading the take"
        aria-valuenow={percent}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuetext={`${doing || 'starting'}, ${percent} percent`}
      >
        <i style={{ width: `${percent}%` }} />
        <span>{doing || 'starting'}</span>
      </div>
    </div>
  );
}

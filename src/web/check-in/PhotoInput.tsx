// A photo taken with the telephone's camera, or chosen where there is none.
import type { ReactNode } from 'react';

interface PhotoInputProps {
  label: string;
  busy: boolean;
  className?: string;
  onPhoto: (file: File) => void;
  children: ReactNode;
}

/** A label as large as a thumb; the input in it opens the camera at the back. */
export function PhotoInput({ label, busy, className = 'btn', onPhoto, children }: PhotoInputProps) {
  return (
    <label className={`photo-input ${className}`}>
      {children}
      <input
        className="unseen"
        type="file"
        accept="image/jpeg,image/png"
        capture="environment"
        aria-label={label}
        disabled={busy}
        onChange={({ target }) => {
          const [file] = target.files ?? [];
          target.value = '';
          if (file !== undefined) onPhoto(file);
        }}
      />
    </label>
  );
}

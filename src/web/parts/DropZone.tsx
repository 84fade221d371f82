// Takes files: dropped on what it surrounds, or chosen by a button of its own.
import { type DragEvent, type ReactNode, useState } from 'react';
import { Icon } from './Icon.tsx';

interface DropZoneProps {
  className: string;
  /** What a screen reader calls it. */
  label: string;
  /** For `data-take`. */
  take?: string;
  onFiles: (files: readonly File[]) => void;
  children: ReactNode;
}

export function DropZone({ className, label, take, onFiles, children }: DropZoneProps) {
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    event.stopPropagation();
    setOver(false);
    onFiles([...event.dataTransfer.files]);
  };
  return (
    <section
      className={`${className}${over ? ' over' : ''}`}
      aria-label={label}
      data-take={take}
      onDragOver={(event) => {
        event.preventDefault();
        event.stopPropagation();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      {children}
    </section>
  );
}

interface FileButtonProps {
  text: string;
  /** What a screen reader says where the text alone is not enough. */
  label?: string;
  /** Which files the desk offers; recordings and descriptions of tracks by default. */
  accept?: string;
  onFiles: DropZoneProps['onFiles'];
}

const soundFiles = '.wav,.json,audio/wav,audio/x-wav,application/json';

export function FileButton({ text, label, accept = soundFiles, onFiles }: FileButtonProps) {
  return (
    <label className="btn file">
      <Icon name="save" />
      {text}
      <input
        type="file"
        aria-label={label}
        accept={accept}
        multiple
        onChange={({ target }) => {
          onFiles([...(target.files ?? [])]);
          target.value = '';
        }}
      />
    </label>
  );
}

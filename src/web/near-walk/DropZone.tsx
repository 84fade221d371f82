// Takes files: dropped on what it surrounds, or chosen by a button of its own.
import { type DragEvent, type ReactNode, useState } from 'react';
import { Icon } from '../parts/Icon.tsx';

interface DropZoneProps {
  className: string;
  onFiles: (files: readonly File[]) => void;
  children: ReactNode;
}

export function DropZone({ className, onFiles, children }: DropZoneProps) {
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    event.stopPropagation();
    setOver(false);
    onFiles([...event.dataTransfer.files]);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is the short way; a button does the same
    <div
      className={`${className}${over ? ' over' : ''}`}
      onDragOver={(event) => {
        event.preventDefault();
        event.stopPropagation();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      {children}
    </div>
  );
}

interface FileButtonProps {
  text: string;
  /** What a screen reader says where the text alone is not enough. */
  label?: string;
  onFiles: DropZoneProps['onFiles'];
}

export function FileButton({ text, label, onFiles }: FileButtonProps) {
  return (
    <label className="btn file">
      <Icon name="save" />
      {text}
      <input
        type="file"
        aria-label={label}
        accept=".wav,.json,audio/wav,audio/x-wav,application/json"
        multiple
        onChange={({ target }) => {
          onFiles([...(target.files ?? [])]);
          target.value = '';
        }}
      />
    </label>
  );
}

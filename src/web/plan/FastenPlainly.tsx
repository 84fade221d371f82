// A cover fastened without a word of what is behind it.
import { useEffect, useRef } from 'react';
import type { Command } from '../../job/commands/commands.ts';
import type { JobView } from '../api-client.ts';

export interface FastenSheetProps {
  view: JobView;
  /** Letter on the drawing. */
  cover: string;
  name: string;
  wish: (...commands: Command[]) => Promise<boolean>;
  onClose: () => void;
}

/** Fastens it without a word; who decides whether that may be is the journal. */
export function FastenPlainly({ cover, wish, onClose }: FastenSheetProps) {
  const begun = useRef(false);
  useEffect(() => {
    if (begun.current) return;
    begun.current = true;
    void wish({ command: 'changeCovers', covers: [{ cover, state: 'fastened' }] }).then(onClose);
  }, [cover, wish, onClose]);
  return null;
}

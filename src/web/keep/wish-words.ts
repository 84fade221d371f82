// How a wish that waits for the shop is called.
import type { Command } from '../../job/commands/commands.ts';

const words: Partial<Record<Command['command'], string>> = {
  changeCovers: 'A change of covers',
  giveEvidence: 'A proof of a hold point',
  addNote: 'A note',
  recordCheck: 'A check of the car',
};

export const wishWords = ({ command }: Command): string => words[command] ?? 'A change';

// Parts to take from the shelf: what the sheet says, into the part that is being edited.

import { amplifierShelf, driverShelf, processorShelf, sourceShelf } from '../../plan/parts-library.ts';
import type { PartKind } from '../../plan/plan.ts';
import { Pick } from './choices.tsx';
import type { Draft } from './PartForm.tsx';

const shelves: Partial<Record<PartKind, Record<string, object>>> = {
  driver: driverShelf,
  amplifier: amplifierShelf,
  processor: processorShelf,
  source: sourceShelf,
};

/** What belongs to this car and stays when another sheet is taken. */
const ofTheCar = ['id', 'place', 'enclosure', 'note', 'groundAt', 'turnsOn', 'facing', 'gapUnderConeMm'];

interface ShelfProps {
  kind: PartKind;
  draft: Draft;
  onChange: (draft: Draft) => void;
}

export function Shelf({ kind, draft, onChange }: ShelfProps) {
  const shelf = shelves[kind];
  if (shelf === undefined) return null;
  const take = (model: string | undefined) => {
    const sheet = model === undefined ? undefined : shelf[model];
    if (sheet === undefined) return;
    const kept = Object.fromEntries(Object.entries(draft).filter(([field]) => ofTheCar.includes(field)));
    const wired =
      kind === 'processor' && Array.isArray(draft.inputs) ? { inputs: structuredClone(draft.inputs) as unknown } : {};
    onChange({ ...structuredClone(sheet), name: model, ...wired, ...kept, id: draft.id });
  };
  return (
    <Pick
      label="From the shelf"
      none="choose, or type below"
      value={Object.keys(shelf).find((model) => model === draft.name)}
      options={Object.keys(shelf).map((model) => ({ value: model, words: model }))}
      onChange={take}
    />
  );
}

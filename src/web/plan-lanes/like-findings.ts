// Findings that say the same of several places, such as of a left and a right driver, are told once.
import { sameFigures } from '../../job/rules/same-figures.ts';
import type { FindingGroup, PlanFinding } from './plan-finding.ts';

const kindOfPlace = (place: string): string => place.split(' ')[0];

function alike(a: PlanFinding, b: PlanFinding): boolean {
  return (
    a.id === b.id &&
    a.severity === b.severity &&
    kindOfPlace(a.place) === kindOfPlace(b.place) &&
    a.place !== b.place &&
    sameFigures(a.values, b.values) &&
    (a.changes?.length ?? 0) === (b.changes?.length ?? 0) &&
    a.accepted?.why === b.accepted?.why &&
    (a.accepted?.stale === undefined) === (b.accepted?.stale === undefined)
  );
}

/** In the order of the first of each. A finding without figures stands alone: nothing shows that it is the same. */
export function likeFindings(findings: readonly PlanFinding[]): FindingGroup[] {
  const groups: PlanFinding[][] = [];
  for (const finding of findings) {
    const group = groups.find(([first]) => alike(first, finding));
    if (group === undefined || Object.keys(finding.values).length === 0) groups.push([finding]);
    else group.push(finding);
  }
  return groups as unknown as FindingGroup[];
}

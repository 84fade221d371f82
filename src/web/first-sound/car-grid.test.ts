import { expect, test } from 'vitest';
import { templateNames, templatePlan } from '../../plan/templates/templates.ts';
import { walkOfPlan } from '../../wiring/plan-of-job.ts';
import { carGrid } from './car-grid.ts';

test.each(templateNames)(
  'every place of the plan %s has a spot of its own, left ones left and the boot last',
  (name) => {
    const plan = templatePlan(name);
    const { channels } = walkOfPlan(plan);
    const grid = carGrid(plan, channels);
    expect(grid).toHaveLength(channels.length);
    expect(new Set(grid.map(({ row, column }) => `${row} ${column}`)).size).toBe(grid.length);
    const inBoot = plan.place.filter((part) => part.row === 'boot').map(({ id }) => id);
    const firstInBoot = Math.min(...grid.filter(({ place }) => inBoot.includes(place)).map(({ row }) => row));
    for (const { place, column, row } of grid) {
      const part = plan.place.find(({ id }) => id === place);
      expect(column).toBe({ left: 1, centre: 2, right: 3 }[part?.side ?? 'centre']);
      if (part?.row !== 'boot') expect(row).toBeLessThan(firstInBoot);
    }
  },
);

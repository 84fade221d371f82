import { driversCalculations } from '../../src/drivers/driver-calculations.ts';
import { type CalculationCase, testCases } from './calculation-cases.ts';
import vectors from './drivers.json' with { type: 'json' };
import more from './drivers-more.json' with { type: 'json' };

testCases(driversCalculations, [...vectors.cases, ...more.cases] as CalculationCase[]);

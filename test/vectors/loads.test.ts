import { loadsCalculations } from '../../src/drivers/load-calculations.ts';
import { testCases } from './calculation-cases.ts';
import vectors from './loads.json' with { type: 'json' };

testCases(loadsCalculations, vectors.cases);

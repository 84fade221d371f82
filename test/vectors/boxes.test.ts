import { boxesCalculations } from '../../src/drivers/box-calculations.ts';
import vectors from './boxes.json' with { type: 'json' };
import { type CalculationCase, testCases } from './calculation-cases.ts';

testCases(boxesCalculations, vectors.cases as CalculationCase[]);

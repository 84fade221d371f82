import { electricalCalculations } from '../../src/electrical/calculations.ts';
import { testCases } from './calculation-cases.ts';
import vectors from './electrical.json' with { type: 'json' };

testCases(electricalCalculations, vectors.cases);

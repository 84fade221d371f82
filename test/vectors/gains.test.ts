import { gainsCalculations } from '../../src/electrical/gains/calculations.ts';
import { testCases } from './calculation-cases.ts';
import vectors from './gains.json' with { type: 'json' };

testCases(gainsCalculations, vectors.cases);

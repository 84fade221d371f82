import { exposureCalculations } from '../../src/signals/exposure/calculations.ts';
import { testCases } from './calculation-cases.ts';
import vectors from './exposure.json' with { type: 'json' };

testCases(exposureCalculations, vectors.cases);

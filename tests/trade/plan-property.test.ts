import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planRig } from '../../src/trade/plan/plan-rig.ts';
import { checkPlan } from './check-plan.ts';
import { anyInput } from './plan-input.ts';

describe('every plan, whatever the day', () => {
  test('no paint is ever past its use-by unflushed, ratios are kept, nothing is mixed in a break, all is flushed', () => {
    let batches = 0;
    let feasible = 0;
    fc.assert(
      fc.property(anyInput, (input) => {
        const plan = planRig(input);
        batches += plan.batches.length;
        feasible += plan.feasible ? 1 : 0;
        expect(checkPlan(plan, input)).toEqual([]);
      }),
      { numRuns: 600, seed: 20260512 },
    );
    // The days drawn must be days on which something is planned, and not all of them.
    expect(batches).toBeGreaterThan(400);
    expect(feasible).toBeGreaterThan(50);
    expect(feasible).toBeLessThan(590);
  });
});

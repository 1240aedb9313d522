import { expect, test } from 'vitest';
import { bandAt, bedHeightOf, frameAt, targetsOf } from '../../../sim/history/index.ts';
import { runPicture } from '../../../src/app/runs/run-picture.ts';
import { wholeRun } from '../figure/runs.ts';

test('the small picture of a run draws the bands where they stand in the bed as long as it is', () => {
  const { scenario, plan } = wholeRun('cathode-leach');
  const [band] = runPicture(plan, targetsOf(scenario), plan.logEnd.time_min).bands.filter(({ ion }) => ion === 'Co');
  const drawn = band.xs.flatMap((mL, i) => (Number.isFinite(band.leading[i]) ? [{ mL, leading: band.leading[i] }] : []));
  expect(drawn.length).toBeGreaterThan(20);
  for (const { mL, leading } of drawn.slice(0, -1)) {
    const frame = frameAt(plan, mL);
    // The support does not move: what is left below the edge has shrunk with the bed.
    const left = ((1 - (bandAt(plan, 'Co', frame)?.leading_cm ?? Number.NaN) / plan.length_cm) * bedHeightOf(plan, frame)) / plan.length_cm;
    expect(1 - leading).toBeCloseTo(left, 5);
  }
});

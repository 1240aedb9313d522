import { addIssue } from '../../../sim/input/index.ts';
import type { FlowTest } from '../../../sim/run/index.ts';
import { sectionOf } from '../../../sim/terms/geometry.ts';
import type { Issue, Scenario } from '../../../sim/terms/types.ts';

// A flow test on the packed bed, before anything is poured: its columns in the table of readings.

export const TEST_PLACES = ['flow_test_mL', 'flow_test_head_mm', 'flow_test_end_mm'] as const;
export type TestPlace = (typeof TEST_PLACES)[number];

/** Less than a drop cannot be timed, mL. */
const VOLUME_LEAST = 0.05;
/** A cylinder is read to about this, mL; more than this beyond what stood above the bed is a slip. A choice. */
const SPARE_ML = 0.1;

/** What is known of a test beside its minutes; NaN where a cell could not be read. An empty end: nothing was added while it ran. */
export function flowTestIn(place: (name: TestPlace) => number, ended: boolean, row: number, { values }: Scenario, issues: Issue[]): FlowTest {
  const [volume_mL, from_mm] = [place('flow_test_mL'), place('flow_test_head_mm')];
  const stood_mL = (sectionOf(values) * from_mm) / 10;
  if (volume_mL < VOLUME_LEAST) addIssue(issues, `row ${row}, flow_test_mL`, `at least ${VOLUME_LEAST} mL`, `${volume_mL} mL`);
  if (ended) return { volume_mL, from_mm, to_mm: place('flow_test_end_mm') };
  if (volume_mL > stood_mL + SPARE_ML)
    addIssue(
      issues,
      `row ${row}, flow_test_mL`,
      `at most ${stood_mL.toFixed(1)} mL, which is what ${from_mm} mm above the bed hold in this tube; if more was poured on, give the level at the end as flow_test_end_mm`,
      `${volume_mL} mL`,
    );
  return { volume_mL, from_mm, to_mm: Math.max(0, from_mm - (10 * volume_mL) / sectionOf(values)) };
}

import { resultsOf, runWhole } from '../../sim/run/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { answering } from '../../src/headless/threads.ts';

answering((scenario: Scenario, seed: number) => resultsOf(runWhole({ ...scenario, seed })));

import type { Scenario } from '../../sim/terms/types.ts';
import { answering } from '../../src/headless/threads.ts';
import { recovered } from './recovered.ts';

answering((scenario: Scenario, seed: number) => recovered(scenario, seed));

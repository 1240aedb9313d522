import { classAnswer, type ClassTask } from '../../sim/class/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { answering } from './threads.ts';

answering((scenario: Scenario, task: ClassTask) => classAnswer(scenario, task));

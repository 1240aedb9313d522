// Reads scenarios, logs and settings, and names every fault found in them. Other rooms import from here.
export { plausible } from './consistency.ts';
export { cutOffAfter, parseJson, TEXT_MAX } from './json.ts';
export { ACTIONS_MAX, issuesOf, LABEL_MAX, logShape, parseLog, readLog } from './log.ts';
export { choice, dictionary, flag, list, note, number, object, orNull, type Shape, text } from './reading.ts';
export { addIssue, describe, inWords, isRecord, oneOf, own } from './told.ts';
export { merged } from './patch.ts';
export { eluents, sampleLiquids, samplesOf, targetOf } from './roles.ts';
export { readScenario, type ScenarioResult } from './scenario.ts';
export { applySettings } from './settings.ts';

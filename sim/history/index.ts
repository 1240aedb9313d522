// How a run is recorded, and what can be read off it. Nothing outside this room counts rows or cells of the record.
export { BAND_LEAST, bandAt, bandNow, type Track, trackOf } from './bands.ts';
export { certain, movedEluent, movedReceiver, withReceiverMoved } from './changes/edit.ts';
export { type Handle, handlesOf } from './changes/handles.ts';
export { type Span, isSettled, keptHolds, keptOf, spansOf, withStop } from './changes/fractions.ts';
export { meetsTask, namesOf, taskHeld, type Together, togetherOf } from './changes/together.ts';
export { logWithActionsAt } from './changes/inserted.ts';
export { keptAmong } from './changes/kept.ts';
export { keptVerdict } from './changes/kept-verdict.ts';
export { type Advice, type Lesson, lessonOf, lessonWords } from './changes/lesson.ts';
export { isSample, isWeaker, isWithEluent, type Progress, progressOf } from './changes/progress.ts';
export { type StartSearch, type StartWindow, waterWindow } from './changes/start-window.ts';
export { bestStart, type Fraction, type SwitchWindow, switchWindow, type Verdict, verdict } from './changes/switch-window.ts';
export { type FractionTargets, targetsOf } from './changes/targets.ts';
export {
  BEGINS_SHARE,
  collected,
  collectedAt,
  type EffluentCurve,
  effluentCurve,
  highestLeaving,
  leavesAt,
  leavesBelow,
  leavingAt,
  pouredOf,
  type Solute,
  solutesOf,
} from './effluent.ts';
export type { RunEvent } from './events.ts';
export {
  bedHeightOf,
  deliveredAtEnd,
  deliveredBy,
  deliveredOf,
  flowOf,
  type Frames,
  frameAt,
  frameAtTime,
  framesApart,
  framesOf,
  idleBetween,
  instantAt,
  instantAtTime,
  levelOf,
  onRuler,
  readingAt,
  receiverOf,
  timeAt,
  timeOf,
} from './frames.ts';
export { type FrontMeeting, frontDepth, frontMeeting } from './fronts.ts';
export { type Lean, leanOf } from './lean.ts';
export { gammaTailing, type PeakShape, peakShape } from './peak.ts';
export type { Plan, ReceiverResult, Results } from './plan.ts';
export { depthOf, firstDifference, highestInBed, inBedAt, profileOf, profilesOf } from './profiles.ts';
export { namesFirst, receiverLabels, UNNAMED_RECEIVER } from './receivers.ts';
export { type RunRecord, recordFor, recordInto, trimmed } from './record.ts';
export { bandOnRuler, belowTop, belowTopAt, betweenFrames, depthAtReading, trackOnRuler } from './ruler.ts';

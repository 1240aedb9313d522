import { html, type TemplateResult } from 'lit';
import { type Lesson, lessonOf, progressOf } from '../../../sim/history/index.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import type { KeptRun } from '../../store/keep/shelf.ts';
import { isOverByNow } from '../../store/over.ts';
import type { Session } from '../../store/session.ts';
import '../../ui/table.ts';
import type { Row } from '../../ui/text/csv.ts';
import { millilitres, millimoles, percent } from '../../ui/text/format.ts';
import { HEIGHT, runDrawing, WIDTH } from './run-drawing.ts';
import { type RunPicture, runPicture } from './run-picture.ts';
import type { ToldRun } from './run-pictures.ts';

// A kept run over the run on the page: one picture, and the same figures of both.

/** The kept run is drawn full, that on the page in dots. */
export function comparison({ name }: KeptRun, told: ToldRun, session: Session): TemplateResult {
  const columns = [
    { key: 'what', label: 'of the fraction' },
    { key: 'kept', label: name || 'kept run' },
    { key: 'here', label: 'run on the page' },
  ];
  const here = pictureHere(session);
  return html`<div class="compared"><div><svg class="picture" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="The kept run; in dots the run on the page">${runDrawing(told.picture, here)}</svg>
    <p class="soft">Full: the kept run. Dots: the run on the page. Above the bands in the bed, below what left the tip, over ${millilitres(told.picture.end_mL)} and ${millilitres(here?.end_mL ?? 0)}.</p></div>
    <bf-table caption="Side by side" .columns=${columns} .rows=${rowsOf(told, lessonHere(session))} no-copy></bf-table></div>`;
}

function pictureHere({ store, targets, sees }: Session): RunPicture | undefined {
  const { plan } = store;
  return plan && targets && runPicture(plan, targets, store.present ?? store.now, sees !== 'eye');
}

/** Of a run that is over; another is still to be judged. */
function lessonHere({ store, targets }: Session): Lesson | undefined {
  const { plan, scenario } = store;
  return plan && scenario && targets && isOverByNow(store) ? lessonOf(plan, targets, progressOf(scenario, plan.events).eluent_mL) : undefined;
}

function rowsOf({ lesson, targets }: ToldRun, here: Lesson | undefined): Row[] {
  const row = (what: string, of: (lesson: Lesson) => string): Row => ({
    what,
    kept: lesson?.found ? of(lesson) : 'not over',
    here: here?.found ? of(here) : 'not over',
  });
  return [
    row(`${IONS[targets.target].name} recovered`, ({ found }) => percent(found?.recovered ?? Number.NaN)),
    row('of the other ion carried', ({ found }) => percent(found?.carried ?? Number.NaN)),
    row('acid carried', ({ found }) => millimoles(found?.acid_mmol ?? Number.NaN, 1)),
    row('receiver under the tip from', ({ kept }) => millilitres(kept?.from_mL ?? Number.NaN)),
    row('to', ({ kept }) => millilitres(kept?.to_mL ?? Number.NaN)),
    row('receiver changed', ({ found }) => timing(found?.early_mL, found?.late_mL)),
  ];
}

function timing(early_mL = 0, late_mL = 0): string {
  if (late_mL > 0) return `${millilitres(late_mL)} late`;
  return early_mL > 0 ? `${millilitres(early_mL)} early` : 'in time';
}

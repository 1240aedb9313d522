import { effect } from '@preact/signals-core';
import { html } from 'lit';
import { capital } from '../../sim/terms/capital.ts';
import type { Session } from '../store/session.ts';

/** Draws a view; called whenever the shell renders. Anything Lit can render. */
export type DrawView = () => unknown;

/** One entry of the navigation. `load` imports the view's own chunk. */
export interface View {
  /** Name in the address: lower case, no spaces. */
  readonly id: string;
  readonly label: string;
  readonly load: () => Promise<DrawView>;
}

/** Order of the navigation; a view that is not built is not listed. */
export function viewsOf(session: Session): readonly View[] {
  return [
    {
      id: 'bench',
      label: 'Bench',
      load: async () => {
        await Promise.all([import('../bench/view.ts'), import('../figure/figure.ts')]);
        void whenOpen(session).then(() => {
          beside(session, 'the glass', import('../glass/glass.ts'));
          beside(session, 'what can happen next', import('../bench/said/ahead.ts'));
          beside(session, 'what is spoken', import('../bench/said/announcer.ts'));
          beside(session, 'the cautions', import('../bench/hazard/signs.ts'));
          beside(session, 'the bands of the figure', import('../figure/instruments.ts'));
          beside(session, 'the handles of the figure', import('../bench/dragging.ts'));
          beside(session, 'the coach', import('../coach/coach.ts'));
          beside(session, 'the told run', import('../bench/watch/watch.ts'));
          beside(session, 'the note on what was handed out', import('../given/note.ts'));
          beside(session, 'the note on faults', import('../faults/imposed/imposed-note.ts'));
          beside(session, 'the note on fitted numbers', import('../bench/task/fitted-note.ts'));
          beside(session, 'the filling of an empty tube', import('../bench/packing/packing.ts'));
          beside(session, 'the drawer', import('../bench/more/more.ts'));
          beside(session, 'the debrief', import('../bench/debrief/debrief.ts'));
          beside(session, 'the explanation beside the bench', import('../why/here/here.ts'));
          beside(session, 'the part on what was lost', import('../faults/why-lost.ts'));
        });
        return () =>
          html`<bf-bench .session=${session}><bf-why-here slot="here" .session=${session}></bf-why-here><bf-why-lost slot="why" .session=${session}></bf-why-lost></bf-bench>`;
      },
    },
    {
      id: 'why',
      label: 'Why',
      load: async () => {
        await import('../why/view.ts');
        return () => html`<bf-why .session=${session}></bf-why>`;
      },
    },
    {
      id: 'faults',
      label: 'Faults',
      load: async () => {
        await Promise.all([import('../faults/view.ts'), import('../figure/figure.ts'), import('../glass/unrolled.ts')]);
        beside(session, 'the glass', import('../glass/glass.ts'));
        return () => html`<bf-faults .session=${session}></bf-faults>`;
      },
    },
    {
      id: 'workup',
      label: 'Flask',
      load: async () => {
        await Promise.all([import('../workup/view.ts'), session.workUp.load()]);
        return () => html`<bf-workup .session=${session}></bf-workup>`;
      },
    },
    {
      id: 'notebook',
      label: 'Notebook',
      load: async () => {
        await Promise.all([import('../notebook/view.ts'), import('../figure/figure.ts'), session.workUp.load()]);
        return () => html`<bf-notebook .session=${session}></bf-notebook>`;
      },
    },
    {
      id: 'plan',
      label: 'Plan',
      load: async () => {
        await Promise.all([import('../plan/view.ts'), session.workUp.load()]);
        return () => html`<bf-plan .session=${session}></bf-plan>`;
      },
    },
    {
      id: 'class',
      label: 'Class',
      load: async () => {
        await import('../class/view.ts');
        return () => html`<bf-class .session=${session}></bf-class>`;
      },
    },
    {
      id: 'lab',
      label: 'Lab',
      load: async () => {
        await Promise.all([import('../lab/view.ts'), import('../figure/figure.ts'), import('../glass/unrolled.ts')]);
        beside(session, 'the glass', import('../glass/glass.ts'));
        return () => html`<bf-lab .session=${session}></bf-lab>`;
      },
    },
  ];
}

/** Once a run is there: what the bench can do without for a moment waits until then. */
export function whenOpen({ store }: Session): Promise<void> {
  return new Promise((resolve) => {
    const stop = effect(() => {
      if (!store.plan) return;
      // First the bench is drawn, then the line is free.
      requestAnimationFrame(() => setTimeout(resolve));
      queueMicrotask(() => stop());
    });
  });
}

/** A part that a view can do without: that it is missing is said. */
export function beside(session: Session, name: string, part: Promise<unknown>): void {
  part.catch(() => session.say(`${capital(name)} could not be loaded; the rest of the page works. Reload the page to try again.`, 'problem'));
}

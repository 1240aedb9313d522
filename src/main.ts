import { effect, untracked } from '@preact/signals-core';
import { guardBack } from './app/back.ts';
import { playLoop } from './app/loop.ts';
import { type Shared, takeShared } from './app/route.ts';
import { showHandIn } from './app/show-hand-in.ts';
import { beside, viewsOf, whenOpen } from './app/views.ts';
import { workerThread } from './store/threads/model-thread.ts';
import { hearPointing } from './store/pointing.ts';
import { Session } from './store/session.ts';
import { localStorageOf, watchOtherTabs } from './store/keep/storage.ts';
import { rememberSingleKeys } from './ui/keys.ts';
import { showMessage } from './ui/message.ts';
import { installTheme } from './ui/look/theme.ts';
import './app/shell.ts';
import './app/scenario-choice.ts';
import './app/seeing-choice.ts';

const storage = localStorageOf(window);
installTheme(document, storage);
rememberSingleKeys(storage);

// Random enough to tell tabs apart; randomUUID is not there on plain http.
const tab = crypto.getRandomValues(new Uint32Array(2)).join('-');
const session = new Session(
  workerThread((text) => session.say(text, 'problem')),
  storage,
  tab,
);
watchOtherTabs(window, tab, (message) => session.say(message));
playLoop(session.store);

const app = document.querySelector('bf-app');
const menu = document.querySelector('bf-run-menu');
if (app) {
  app.views = viewsOf(session);
  hearPointing(app, session.pointing);
  app.addEventListener('bf-hand-in', () => void showHandIn(app, session));
}
if (app) app.keep = () => session.keepNow();
if (menu) menu.session = session;
const choice = document.querySelector('bf-scenario-choice');
if (choice) choice.session = session;
const seeing = document.querySelector('bf-seeing-choice');
if (seeing) seeing.session = session;
// The header of a telephone has no room for a title: the choice of the scenario stands in the menu, where it can be read.
const narrow = matchMedia('(max-width: 40rem)');
narrow.addEventListener('change', arrange);
arrange();
guardBack(window, () => session.say('Press Back once more to leave Bandfall. The run is kept.'));
effect(() => {
  if (app) app.scenarioTitle = session.store.scenario?.title ?? '';
});

effect(() => {
  const { notice: text, noticeKind: kind } = session;
  if (app && text !== '') untracked(() => showMessage(app, { text, kind }));
});
addEventListener('pagehide', () => session.keepNow());
// With no run to open the menu is what is left to help oneself with.
effect(() => {
  if (session.notice !== '') beside(session, 'the menu', import('./app/run-menu.ts'));
});
whenOpen(session).then(() => beside(session, 'the menu', import('./app/run-menu.ts')));

// First the bench, then the rest of the release for a day without a connection.
if (import.meta.env.PROD)
  whenOpen(session)
    .then(() => import('./app/offline/keep-offline.ts'))
    .then(
      ({ keepOffline }) => keepOffline(window, (change) => void offerRelease(change)),
      // The server has gone: there is nothing to keep, and the menu, asked for at the same moment, says so.
      () => undefined,
    );

async function offerRelease(change: () => void): Promise<void> {
  await import('./app/offline/release-note.ts');
  const note = document.querySelector('bf-release-note') ?? document.createElement('bf-release-note');
  note.slot = 'notice';
  note.change = change;
  note.keep = () => session.keepNow();
  app?.append(note);
}

document.addEventListener('bf-show-runs', () => void showKeptRuns());

function arrange(): void {
  if (choice) choice.slot = narrow.matches ? 'actions' : 'run';
  if (seeing) seeing.short = narrow.matches;
}

/** No two visits on the same column. */
const fresh = (): number => crypto.getRandomValues(new Uint32Array(1))[0];
void start(takeShared(location, history));
addEventListener('hashchange', () => {
  const shared = takeShared(location, history);
  if (shared !== undefined) void start(shared);
});

async function start(shared: Shared | undefined): Promise<void> {
  if (shared?.kind === 'task') return session.startHandOut(shared.text, fresh);
  if (shared?.kind === 'handed') session.arrived = [...session.arrived, shared.text];
  const run = shared?.kind === 'run' ? shared.text : undefined;
  if (run !== undefined || session.store.plan === undefined) await session.start(run, fresh);
}

/** The list is loaded when it is first asked for. */
async function showKeptRuns(): Promise<void> {
  await import('./app/runs/kept-runs.ts');
  const runs = document.querySelector('bf-kept-runs');
  if (!runs) return;
  runs.session = session;
  await runs.show();
}

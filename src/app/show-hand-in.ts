import type { Session } from '../store/session.ts';
import type { App } from './shell.ts';

/** Opens the form for handing in over whatever view is shown. */
export async function showHandIn(app: App, session: Session): Promise<void> {
  try {
    await import('../given/hand-in.ts');
  } catch {
    return session.say('The form for handing in could not be loaded; the run is as it was. Try again later.', 'problem');
  }
  const form = app.querySelector('bf-hand-in') ?? document.createElement('bf-hand-in');
  form.slot = 'notice';
  form.session = session;
  if (!form.isConnected) app.append(form);
  await form.show();
}

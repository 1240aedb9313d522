import type { Outcome } from '../store/keep/saved.ts';
import type { Session } from '../store/session.ts';
import { type Message, showMessage } from '../ui/message.ts';
import type { LabDraft } from './draft.ts';

/** The lab as a fresh run on the bench; the one there is put aside. `asked` names what was pressed. */
export async function putOnBench(session: Session, draft: LabDraft, asked: string): Promise<Outcome<{ readonly putAside: boolean }>> {
  if (!draft.scenario) return { ok: false, message: `${asked}: something is not valid yet; it is listed above the sections.` };
  const before = session.saved();
  if (!(await session.openRun(await draft.forStudents()))) return { ok: false, message: `${asked}: ${session.issues[0]?.expected ?? 'not accepted'}` };
  return { ok: true, value: { putAside: before.log.length > 0 } };
}

/** Says that the lab is on the bench, with the way back to a run that was put aside. */
export function sayOnBench(from: HTMLElement, session: Session, text: string, putAside: boolean): void {
  const back: Pick<Message, 'action'> = putAside ? { action: { label: 'Back to that run', run: () => void session.goBack() } } : {};
  showMessage(from, { kind: 'note', text: putAside ? `${text} The run before it is put aside.` : text, ...back });
}

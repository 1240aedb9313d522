import { type HandOut, isHandOut, readHandOut } from '../../sim/handed/index.ts';
import { inWords } from '../../sim/input/index.ts';
import type { Issue } from '../../sim/terms/types.ts';
import { unpacked } from '../store/keep/packed.ts';

// What an instructor chose, dropped or pasted: runs that were handed in, what was handed out, as files or as links.

/** A file or link by the name it is shown under. */
export interface Given {
  readonly name: string;
  readonly text: string;
}

/** Sorted: texts of runs to be computed, hand-outs, and what cannot be read. */
export interface Sorted {
  readonly runs: readonly Given[];
  readonly handOuts: readonly HandOut[];
  readonly unread: readonly { readonly name: string; readonly issue: Issue }[];
}

const LINK = /[?#&](?:handed|task)=([\w.-]+)/;
/** Files taken at once, and how deep folders are looked through; a class has fewer. */
export const FILES_MAX = 500;
const DEPTH_MAX = 4;
const BYTES_MAX = 1_000_000;

/** Pasted text: links, one per line, or the text of one file. */
export function pasted(text: string, from: number): Given[] {
  const lines = text.split(/\s+/).filter((word) => LINK.test(word));
  if (lines.length === 0) return [{ name: `pasted ${from}`, text }];
  return lines.slice(0, FILES_MAX).map((line, i) => ({ name: `link ${from + i}`, text: line }));
}

export async function sorted(given: readonly Given[]): Promise<Sorted> {
  const runs: Given[] = [];
  const handOuts: HandOut[] = [];
  const unread: { name: string; issue: Issue }[] = [];
  for (const { name, text } of given) {
    const link = LINK.exec(text.length < BYTES_MAX && !text.trimStart().startsWith('{') ? text : '');
    const content = link ? await unpacked(link[1]) : { ok: true as const, value: text };
    if (!content.ok) {
      unread.push({ name, issue: { path: 'link', expected: 'a whole link', received: content.message } });
    } else if (isHandOut(content.value)) {
      const read = readHandOut(content.value);
      if (read.ok) handOuts.push(read.handOut);
      else unread.push({ name, issue: { path: 'hand-out', expected: 'a valid one', received: inWords(read.issues) } });
    } else runs.push({ name, text: content.value });
  }
  return { runs, handOuts, unread };
}

/** Texts of files; one that is too long is left empty, so that it is reported like any other file that cannot be read. */
export function textsOf(files: readonly File[]): Promise<Given[]> {
  return Promise.all(
    files
      .filter(({ name }) => !name.startsWith('.'))
      .slice(0, FILES_MAX)
      .map(async (file): Promise<Given> => ({ name: file.webkitRelativePath || file.name, text: file.size > BYTES_MAX ? '' : await file.text() })),
  );
}

/** Every file that was dropped, those in folders too. */
export async function droppedFiles(transfer: DataTransfer | null): Promise<File[]> {
  // The list is emptied as soon as the event is over, so the entries are taken first.
  const entries = [...(transfer?.items ?? [])].map((item) => item.webkitGetAsEntry?.() ?? undefined);
  const plain = [...(transfer?.files ?? [])];
  if (entries.every((entry) => entry === undefined)) return plain;
  const found = await Promise.all(entries.map((entry) => (entry ? filesUnder(entry, 0) : [])));
  return found.flat().slice(0, FILES_MAX);
}

async function filesUnder(entry: FileSystemEntry, depth: number): Promise<File[]> {
  if (isFile(entry)) return [await new Promise<File>((resolve, reject) => entry.file(resolve, reject))];
  if (!isFolder(entry) || depth >= DEPTH_MAX) return [];
  const reader = entry.createReader();
  const all: FileSystemEntry[] = [];
  // A folder gives its entries in batches; an empty batch is the last.
  for (;;) {
    const some = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject));
    if (some.length === 0 || all.length > FILES_MAX) break;
    all.push(...some);
  }
  return (await Promise.all(all.map((one) => filesUnder(one, depth + 1)))).flat();
}

function isFile(entry: FileSystemEntry): entry is FileSystemFileEntry {
  return entry.isFile;
}

function isFolder(entry: FileSystemEntry): entry is FileSystemDirectoryEntry {
  return entry.isDirectory;
}

import { posix } from 'node:path';
import { at, type Source } from './tree.ts';

// A room is a folder of sim or src. One look has to take in what lies in it.

/** Files at one level of a room, its public face not counted. */
export const ROOM_MAX = 13;

/** "folder: files", a line a room that holds too many. */
export function crowdedRooms(sources: readonly Source[]): string[] {
  const counts = new Map<string, number>();
  for (const { path } of sources) {
    if (!/^(sim|src)\//.test(path) || path.endsWith('/index.ts')) continue;
    const room = posix.dirname(path);
    counts.set(room, (counts.get(room) ?? 0) + 1);
  }
  return [...counts].filter(([, count]) => count > ROOM_MAX).map(([room, count]) => `${room}: ${count} files`);
}

/** Rooms of sim without a face: every file in them is a table or a function for all. */
const OPEN = ['math', 'terms'];
const IMPORT = /from\s+'([^']*sim\/|(?:\.\.\/)+)([a-z]+)\/([\w-]+\.ts)'/g;

/** "file:line: room/file", a line an import of sim or src that passes by the index of a room. */
export function backDoors(source: Source): string[] {
  const [top, own] = source.path.split('/');
  if (top !== 'sim' && top !== 'src') return [];
  return [...source.text.matchAll(IMPORT)].flatMap((match) => {
    const [, way = '', room = '', file = ''] = match;
    const ofModel = top === 'sim' ? room !== own : way.endsWith('sim/');
    return ofModel && !OPEN.includes(room) && file !== 'index.ts' ? [`${at(source, match.index)}: ${room}/${file}`] : [];
  });
}

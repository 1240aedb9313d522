/** FNV-1a, 32 bit, over the character codes of a text; Fowler, Noll and Vo, recalled. */
export function fingerprint(text: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return h;
}

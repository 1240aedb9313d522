import { svg } from 'lit';

/** Modules as drawn: true is dark. Quiet zone included. */
export type Modules = readonly (readonly boolean[])[];

/** Light modules around the symbol that readers need (ISO/IEC 18004). */
const QUIET = 4;

/** The QR code of a text; the library is loaded when one is wanted. Undefined where the text is longer than a code can hold. */
export async function qrOf(text: string): Promise<Modules | undefined> {
  const { encode } = await import('uqr');
  try {
    return encode(text, { ecc: 'L', boostEcc: true, border: QUIET }).data;
  } catch {
    return undefined;
  }
}

/** Dark on light in any theme, since QR readers expect it. */
export function qrDrawing(modules: Modules) {
  const size = modules.length;
  const runs = modules.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : [])));
  return svg`<svg class="qr" viewBox="0 0 ${size} ${size}" role="img" aria-label="QR code of the link" shape-rendering="crispEdges">
    <rect width=${size} height=${size} fill="#ffffff"></rect><path d=${runs.join('')} fill="#000000"></path></svg>`;
}

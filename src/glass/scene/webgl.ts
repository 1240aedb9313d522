/** Asked before the drawing code is loaded: without WebGL it is of no use. */
export function drawsWebGL(): boolean {
  const context = document.createElement('canvas').getContext('webgl2');
  context?.getExtension('WEBGL_lose_context')?.loseContext();
  return context !== null;
}

// The few calls of WebGL 2 that one picture over a whole canvas needs.

/** Two triangles that cover the canvas; place is in px from the top left corner. */
const COVER = `#version 300 es
uniform vec3 room;
out vec2 place;
void main() {
  vec2 corner = vec2(gl_VertexID & 1, gl_VertexID >> 1);
  place = corner * room.xy;
  gl_Position = vec4(2.0 * corner.x - 1.0, 1.0 - 2.0 * corner.y, 0.0, 1.0);
}`;

/** A program that colours every pixel; throws with the compiler's own words. */
export function coverProgram(gl: WebGL2RenderingContext, fragment: string): WebGLProgram {
  const program = gl.createProgram();
  for (const [kind, text] of [
    [gl.VERTEX_SHADER, COVER],
    [gl.FRAGMENT_SHADER, fragment],
  ] as const)
    gl.attachShader(program, shader(gl, kind, text));
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS) && !gl.isContextLost()) throw new Error(`drawing of the glass: ${gl.getProgramInfoLog(program)}`);
  return program;
}

/** A texture read between its points: round and round across, to the edge down. */
export function smoothTexture(gl: WebGL2RenderingContext, unit: number): WebGLTexture {
  const texture = gl.createTexture();
  gl.activeTexture(gl.TEXTURE0 + unit);
  gl.bindTexture(gl.TEXTURE_2D, texture);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_S, gl.REPEAT);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.LINEAR);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.LINEAR);
  return texture;
}

/** Sends red, green, blue and alpha of each point, top row first, to the texture of this unit. */
export function sendTexels(gl: WebGL2RenderingContext, unit: number, width: number, height: number, rgba: Uint8Array): void {
  gl.activeTexture(gl.TEXTURE0 + unit);
  gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA, width, height, 0, gl.RGBA, gl.UNSIGNED_BYTE, rgba);
}

function shader(gl: WebGL2RenderingContext, kind: number, text: string): WebGLShader {
  const made = gl.createShader(kind);
  if (!made) throw new Error('drawing of the glass: expected a shader, the context is lost');
  gl.shaderSource(made, text);
  gl.compileShader(made);
  if (!gl.getShaderParameter(made, gl.COMPILE_STATUS) && !gl.isContextLost()) throw new Error(`drawing of the glass: ${gl.getShaderInfoLog(made)}`);
  return made;
}

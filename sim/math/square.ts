// Apart from the other elementary functions, since geometry needs no more than this of them.
export function square(x: number): number {
  return x * x;
}

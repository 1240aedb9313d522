// How finely a number has to be written to be told apart from another.

/** Decimals beyond those usual at most; numbers closer than that are written alike. */
const MORE = 3;

/** Decimals, `usual` or the fewest above it, at which `value` and `limit` are written differently. */
export function decimalsApart(value: number, limit: number, usual: number): number {
  const most = usual + MORE;
  for (let decimals = usual; decimals <= most; decimals++) if (value.toFixed(decimals) !== limit.toFixed(decimals)) return decimals;
  return value === limit ? usual : most;
}

/** Values of about five thousand of the cells that `use` lets in, evenly spread: enough for a quantile. */
export function sampled(values: Float32Array, use: (i: number) => boolean, most = 5000): Float32Array {
  // A stride that shares no factor with usual widths, so that whole columns are not left out.
  const stride = Math.max(1, Math.floor(values.length / most)) | 1;
  const kept: number[] = [];
  for (let i = 0; i < values.length; i += stride) if (use(i)) kept.push(values[i]);
  return Float32Array.from(kept);
}

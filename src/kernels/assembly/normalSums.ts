// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: the sums of core/geometry/solve/normalSums.ts, which is the referee. Two
// columns in two float64 lanes, each summed in the order of the rows, so the answers are the same numbers.
// normalSums.ts beside this folder lays the rows out in the memory.

/**
 * Adds `count` rows of `stride` float64 (an even number, the last of an odd number of parameters followed by a 0) with their
 * curvatures, pulls and blocks to the systems: of each block JᵀDJ below the diagonal, `stride` to a row, then Jᵀp.
 */
export function add(
  count: i32,
  parameters: i32,
  stride: i32,
  rows: usize,
  curvatures: usize,
  pulls: usize,
  blocks: usize,
  systems: usize,
): void {
  const rowBytes: usize = 8 * usize(stride);
  const pullsOf: usize = rowBytes * usize(parameters);
  const systemBytes: usize = pullsOf + rowBytes;
  for (let i = 0; i < count; i++) {
    const d = load<f64>(curvatures + 8 * usize(i));
    const pull = load<f64>(pulls + 8 * usize(i));
    if (d === 0 && pull === 0) continue;
    const row: usize = rows + rowBytes * usize(i);
    const system: usize = systems + systemBytes * usize(load<i32>(blocks + 4 * usize(i)));
    for (let r = 0; r < parameters; r++) {
      const w = f64x2.splat(d * load<f64>(row + 8 * usize(r)));
      const out: usize = system + rowBytes * usize(r);
      for (let c: usize = 0; c <= 8 * usize(r); c += 16)
        v128.store(out + c, f64x2.add(v128.load(out + c), f64x2.mul(w, v128.load(row + c))));
    }
    const p = f64x2.splat(pull);
    for (let c: usize = 0; c < rowBytes; c += 16)
      v128.store(system + pullsOf + c, f64x2.add(v128.load(system + pullsOf + c), f64x2.mul(p, v128.load(row + c))));
  }
}

// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: the whole shift at which a patch correlates best, as
// core/judge/bestShift.ts finds it plainly, which is the referee. Two shifts beside one another in two float64 lanes, each summed in
// the same order, so the answers are the same numbers. bestShift.ts beside this folder lays the reliefs out in the memory.

/** Cells across the subject with its margin, and where it stands: float32, NaN without data. */
const headAt: usize = 1024;
/** Correlation, column and row of the best shift, float64. */
const outAt: usize = 1088;
/** Of each cell of the patch: its place in the widened subject (i32, in bytes), then its height (float64), 16 bytes. */
const cellsAt: usize = 65_536;

/** Looks at shifts of up to `reach` about (dc, dr), which lie within the margin. */
export function bestShift(count: i32, dc: i32, dr: i32, reach: i32): void {
  const width = load<i32>(headAt);
  const subject = <usize>load<u32>(headAt, 4);
  let most: f64 = -2;
  let bestColumn = 0;
  let bestRow = 0;
  for (let row = dr - reach; row <= dr + reach; row++)
    for (let col = dc - reach; col <= dc + reach; col += 2) {
      const both = correlations(count, subject + 4 * usize(row * width + col));
      const first = f64x2.extract_lane(both, 0);
      if (first > most) {
        most = first;
        bestColumn = col;
        bestRow = row;
      }
      const second = f64x2.extract_lane(both, 1);
      if (col < dc + reach && second > most) {
        most = second;
        bestColumn = col + 1;
        bestRow = row;
      }
    }
  store<f64>(outAt, most);
  store<f64>(outAt, f64(bestColumn), 8);
  store<f64>(outAt, f64(bestRow), 16);
}

/** Correlation at a shift and at the next column's; −1 where too few cells have data or one side is flat. */
function correlations(count: i32, subject: usize): v128 {
  const one = f64x2.splat(1);
  let n = f64x2.splat(0);
  let sa = n;
  let sb = n;
  let saa = n;
  let sab = n;
  let sbb = n;
  const end = cellsAt + 16 * usize(count);
  for (let at = cellsAt; at < end; at += 16) {
    const lanes = f64x2.promote_low_f32x4(v128.load64_zero(subject + <usize>load<i32>(at)));
    const seen = f64x2.eq(lanes, lanes);
    const p = v128.and(v128.load64_splat(at, 8), seen);
    const q = v128.and(lanes, seen);
    n = f64x2.add(n, v128.and(one, seen));
    sa = f64x2.add(sa, p);
    sb = f64x2.add(sb, q);
    saa = f64x2.add(saa, f64x2.mul(p, p));
    sab = f64x2.add(sab, f64x2.mul(p, q));
    sbb = f64x2.add(sbb, f64x2.mul(q, q));
  }
  const vaa = f64x2.sub(saa, f64x2.div(f64x2.mul(sa, sa), n));
  const vbb = f64x2.sub(sbb, f64x2.div(f64x2.mul(sb, sb), n));
  const r = f64x2.div(f64x2.sub(sab, f64x2.div(f64x2.mul(sa, sb), n)), f64x2.sqrt(f64x2.mul(vaa, vbb)));
  const zero = f64x2.splat(0);
  const enough = v128.and(f64x2.ge(f64x2.add(n, n), f64x2.splat(f64(count))), f64x2.ge(n, f64x2.splat(20)));
  const uneven = v128.and(f64x2.gt(vaa, zero), f64x2.gt(vbb, zero));
  return v128.bitselect(r, f64x2.splat(-1), v128.and(enough, uneven));
}

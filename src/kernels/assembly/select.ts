// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: order statistics by selection, as core/geometry/solve/statistics.ts finds
// them plainly, which is the referee; they are values of the list, so the answers are the same numbers. select.ts beside this
// folder lays the list out in the memory.

/** float64, one after the other. */
const valuesAt: usize = 65_536;

function place(k: i32): usize {
  return valuesAt + (usize(k) << 3);
}

/** Moves what is no NaN to the front; how many these are. */
export function keepFinite(count: i32): i32 {
  let n = 0;
  for (let k = 0; k < count; k++) {
    const value = load<f64>(place(k));
    if (!isNaN<f64>(value)) store<f64>(place(n++), value);
  }
  return n;
}

/** Puts |value − centre| in place of each value. */
export function takeAway(count: i32, centre: f64): void {
  for (let k = 0; k < count; k++) store<f64>(place(k), abs(load<f64>(place(k)) - centre));
}

/** Value number k in ascending order; moves the smaller before it and the greater behind it (Hoare 1961, FIND). */
export function select(count: i32, k: i32): f64 {
  let from = 0;
  let to = count - 1;
  while (from < to) {
    const pivot = load<f64>(place(k));
    let i = from;
    let j = to;
    while (i <= j) {
      while (load<f64>(place(i)) < pivot) i++;
      while (load<f64>(place(j)) > pivot) j--;
      if (i > j) break;
      const kept = load<f64>(place(i));
      store<f64>(place(i++), load<f64>(place(j)));
      store<f64>(place(j--), kept);
    }
    if (j < k) from = i;
    if (i > k) to = j;
  }
  return load<f64>(place(k));
}

/** The least of what stands from `first` on. */
export function leastFrom(count: i32, first: i32): f64 {
  let least = load<f64>(place(first));
  for (let k = first + 1; k < count; k++) least = min(least, load<f64>(place(k)));
  return least;
}

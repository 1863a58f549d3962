// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: how the triangles of a surface hang together, as
// core/scan/repair/census.ts and pieces.ts find it, which are the referees. Whole numbers alone, so the answers are the same.
// Each pass is called by stretches: an engine compiles well what is called again, and not what runs.
// edges.ts beside this folder lays the triangles out in the memory.

/** Three vertex numbers a triangle; another name for each vertex, 0 where none is given. */
let triangles: usize = 0;
let names: usize = 0;
/** Bits of a vertex number that its bucket drops; number of half-edges, later the next place, of each bucket. */
let shift: i32 = 0;
let counts: usize = 0;
/** Half-edges by bucket, two numbers each: the lower vertex, and twice the higher one, 1 more where it runs up. */
let dealt: usize = 0;
/** Hash table of a bucket: the half-edge, 8 bytes, and the state of its edge, 4 bytes each. */
let slots: usize = 0;
let states: usize = 0;

let disagree: i32 = 0;
let crowd: i32 = 0;

/** As in census.ts. */
const none: i32 = 0;
const up: i32 = 1;
const down: i32 = 2;
const agreeing: i32 = 3;
const disagreeing: i32 = 4;
const crowded: i32 = 5;

export function take(
  trianglesAt: usize,
  namesAt: usize,
  bits: i32,
  countsAt: usize,
  dealtAt: usize,
  slotsAt: usize,
  statesAt: usize,
): void {
  triangles = trianglesAt;
  names = namesAt;
  shift = bits;
  counts = countsAt;
  dealt = dealtAt;
  slots = slotsAt;
  states = statesAt;
  disagree = 0;
  crowd = 0;
}

function corner(triangle: i32, k: usize): u32 {
  const vertex = load<u32>(triangles + 12 * usize(triangle) + 4 * k);
  return names === 0 ? vertex : load<u32>(names + 4 * usize(vertex));
}

function countOf(a: u32, b: u32): usize {
  return counts + 4 * usize(min(a, b) >> shift);
}

function more(at: usize): void {
  store<u32>(at, load<u32>(at) + 1);
}

/** How many half-edges each bucket gets. */
export function tally(from: i32, to: i32): void {
  for (let t = from; t < to; t++) {
    const a = corner(t, 0);
    const b = corner(t, 1);
    const c = corner(t, 2);
    more(countOf(a, b));
    more(countOf(b, c));
    more(countOf(c, a));
  }
}

export function deal(from: i32, to: i32): void {
  for (let t = from; t < to; t++) {
    const a = corner(t, 0);
    const b = corner(t, 1);
    const c = corner(t, 2);
    put(a, b);
    put(b, c);
    put(c, a);
  }
}

function put(from: u32, to: u32): void {
  const next = countOf(from, to);
  const at = dealt + 8 * usize(load<u32>(next));
  more(next);
  const rises = from < to;
  store<u32>(at, rises ? from : to);
  store<u32>(at, rises ? to * 2 + 1 : from * 2, 4);
}

/** Counts the edges of one bucket, whose half-edges stand from `begin` to `end`; `mask` is the size of its table less 1. */
export function census(begin: i32, end: i32, mask: u32): void {
  memory.fill(states, 0, 4 * (usize(mask) + 1));
  for (let i = begin; i < end; i++) {
    const at = dealt + 8 * usize(i);
    const low = load<u32>(at);
    const way = load<u32>(at, 4);
    let slot = (((low * 0x9e3779b1) ^ ((way >> 1) * 0x85ebca6b)) >> 7) & mask;
    let before = load<i32>(states + 4 * usize(slot));
    while (before !== none) {
      const other = slots + 8 * usize(slot);
      if (load<u32>(other) === low && load<u32>(other, 4) === way >> 1) break;
      slot = (slot + 1) & mask;
      before = load<i32>(states + 4 * usize(slot));
    }
    if (before === none) {
      store<u32>(slots + 8 * usize(slot), low);
      store<u32>(slots + 8 * usize(slot), way >> 1, 4);
    }
    const after = next(before, (way & 1) === 1);
    if (after === disagreeing) disagree++;
    if (before === disagreeing) disagree--;
    if (after === crowded && before !== crowded) crowd++;
    store<i32>(states + 4 * usize(slot), after);
  }
}

function next(before: i32, rises: bool): i32 {
  if (before === none) return rises ? up : down;
  if (before > down) return crowded;
  return (before === up) === rises ? disagreeing : agreeing;
}

export function disagreeingEdges(): i32 {
  return disagree;
}

export function crowdedEdges(): i32 {
  return crowd;
}

/** Joins the vertices of each triangle; the parents of the union, one number a vertex, stand at `counts`. */
export function join(from: i32, to: i32): void {
  for (let t = from; t < to; t++) {
    const at = triangles + 12 * usize(t);
    joinTwo(load<u32>(at), load<u32>(at, 4));
    joinTwo(load<u32>(at), load<u32>(at, 8));
  }
}

function joinTwo(a: u32, b: u32): void {
  if (parentOf(a) === parentOf(b)) return;
  const x = find(a);
  const y = find(b);
  if (x < y) store<u32>(counts + 4 * usize(y), x);
  else store<u32>(counts + 4 * usize(x), y);
}

function parentOf(vertex: u32): u32 {
  return load<u32>(counts + 4 * usize(vertex));
}

function find(vertex: u32): u32 {
  let v = vertex;
  let parent = parentOf(v);
  while (parent !== v) {
    const above = parentOf(parent);
    store<u32>(counts + 4 * usize(v), above);
    v = above;
    parent = parentOf(v);
  }
  return v;
}

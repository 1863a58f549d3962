// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: how the triangles of a surface hang together, as
// core/scan/repair/census.ts and pieces.ts find it, which are the referees. Whole numbers alone, so the answers are the same.
// Each pass is called by stretches: an engine compiles well what is called again, and not what runs.
// edges.ts beside this folder lays the triangles out in the memory.

/** Three vertex numbers a triangle; another name for each vertex, 0 where none is given. */
let triangles: usize = 0;
let names: usize = 0;
/** Of each vertex how many edges have it as their lower one, then where these begin, and at last where they end. */
let counts: usize = 0;
/** Half-edges by their lower vertex: twice the higher one, and 1 more where it runs up. */
let dealt: usize = 0;

let disagree: i32 = 0;
let crowd: i32 = 0;

/** Stands where a half-edge was counted with another of its edge; names no vertex. */
const taken: u32 = 0xffffffff;

export function take(trianglesAt: usize, namesAt: usize, countsAt: usize, dealtAt: usize): void {
  triangles = trianglesAt;
  names = namesAt;
  counts = countsAt;
  dealt = dealtAt;
  disagree = 0;
  crowd = 0;
}

function corner(triangle: i32, k: usize): u32 {
  const vertex = load<u32>(triangles + 12 * usize(triangle) + 4 * k);
  return names === 0 ? vertex : load<u32>(names + 4 * usize(vertex));
}

function countOf(vertex: u32): usize {
  return counts + 4 * usize(vertex);
}

function more(at: usize): void {
  store<u32>(at, load<u32>(at) + 1);
}

/** How many half-edges each vertex gets. */
export function tally(from: i32, to: i32): void {
  for (let t = from; t < to; t++) {
    const a = corner(t, 0);
    const b = corner(t, 1);
    const c = corner(t, 2);
    more(countOf(min(a, b)));
    more(countOf(min(b, c)));
    more(countOf(min(c, a)));
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
  const next = countOf(min(from, to));
  store<u32>(dealt + 4 * usize(load<u32>(next)), from < to ? to * 2 + 1 : from * 2);
  more(next);
}

/** Counts the edges of vertices, each half-edge against those that come after it. */
export function census(from: i32, to: i32): void {
  let begin: u32 = from === 0 ? 0 : load<u32>(countOf(from - 1));
  for (let vertex = from; vertex < to; vertex++) {
    const end = load<u32>(countOf(vertex));
    for (let i = begin; i < end; i++) countEdge(dealt + 4 * usize(i), dealt + 4 * usize(end));
    begin = end;
  }
}

function countEdge(first: usize, end: usize): void {
  const half = load<u32>(first);
  if (half === taken) return;
  let others = 0;
  let sameWay = 0;
  for (let at = first + 4; at < end; at += 4) {
    const difference = load<u32>(at) ^ half;
    if (difference > 1) continue;
    others++;
    sameWay += i32(difference === 0);
    store<u32>(at, taken);
  }
  if (others > 1) crowd++;
  else disagree += sameWay;
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

import type { Random } from '../../src/core/geometry/index.ts';

/** A triangulated surface in the design frame: xyz triples, mm, and what each vertex is. */
export interface Shell {
  readonly points: Float64Array;
  readonly triangles: Uint32Array;
  readonly bits: Uint16Array;
}

/** Grows a shell piece by piece, in typed arrays that double when full. */
export class ShellBuilder {
  private points = new Float64Array(3 << 14);
  private bits = new Uint16Array(1 << 14);
  private triangles = new Uint32Array(3 << 15);
  private corners = 0;
  count = 0;

  vertex(x: number, y: number, z: number, bits: number): number {
    const index = this.count++;
    if (index === this.bits.length) {
      this.bits = doubled(this.bits, new Uint16Array(2 * index));
      this.points = doubled(this.points, new Float64Array(6 * index));
    }
    this.points[3 * index] = x;
    this.points[3 * index + 1] = y;
    this.points[3 * index + 2] = z;
    this.bits[index] = bits;
    return index;
  }

  triangle(a: number, b: number, c: number): void {
    if (this.corners === this.triangles.length)
      this.triangles = doubled(this.triangles, new Uint32Array(2 * this.corners));
    this.triangles[this.corners++] = a;
    this.triangles[this.corners++] = b;
    this.triangles[this.corners++] = c;
  }

  at(index: number): readonly [number, number, number] {
    return [this.points[3 * index], this.points[3 * index + 1], this.points[3 * index + 2]];
  }

  /** Two triangles over a − b − c − d, split along a random diagonal. */
  quad(a: number, b: number, c: number, d: number, random: Random): void {
    if (random.next() < 0.5) {
      this.triangle(a, b, c);
      this.triangle(a, c, d);
    } else {
      this.triangle(a, b, d);
      this.triangle(b, c, d);
    }
  }

  finish(): Shell {
    return {
      points: this.points.slice(0, 3 * this.count),
      triangles: this.triangles.slice(0, this.corners),
      bits: this.bits.slice(0, this.count),
    };
  }
}

function doubled<A extends { set(from: A): void }>(from: A, to: A): A {
  to.set(from);
  return to;
}

/** The shell without the vertices that no triangle uses. */
export function dropUnused(shell: Shell): Shell {
  const used = new Uint8Array(shell.bits.length);
  for (const index of shell.triangles) used[index] = 1;
  return used.includes(0) ? keepVertices(shell, (i) => used[i] === 1) : shell;
}

/** The part of a shell whose vertices pass; triangles that lose a corner go too. */
export function keepVertices(shell: Shell, keep: (index: number) => boolean): Shell {
  const to = new Int32Array(shell.bits.length).fill(-1);
  let n = 0;
  for (let i = 0; i < to.length; i++) if (keep(i)) to[i] = n++;
  const points = new Float64Array(3 * n);
  const bits = new Uint16Array(n);
  for (let i = 0; i < to.length; i++) {
    if (to[i] < 0) continue;
    const k = 3 * to[i];
    points[k] = shell.points[3 * i];
    points[k + 1] = shell.points[3 * i + 1];
    points[k + 2] = shell.points[3 * i + 2];
    bits[to[i]] = shell.bits[i];
  }
  const triangles = new Uint32Array(shell.triangles.length);
  let corners = 0;
  for (let i = 0; i < shell.triangles.length; i += 3) {
    const a = to[shell.triangles[i]];
    const b = to[shell.triangles[i + 1]];
    const c = to[shell.triangles[i + 2]];
    if (a < 0 || b < 0 || c < 0) continue;
    triangles[corners++] = a;
    triangles[corners++] = b;
    triangles[corners++] = c;
  }
  return { points, triangles: triangles.slice(0, corners), bits };
}

export function joinShells(a: Shell, b: Shell): Shell {
  const points = new Float64Array(a.points.length + b.points.length);
  points.set(a.points);
  points.set(b.points, a.points.length);
  const bits = new Uint16Array(a.bits.length + b.bits.length);
  bits.set(a.bits);
  bits.set(b.bits, a.bits.length);
  const triangles = new Uint32Array(a.triangles.length + b.triangles.length);
  triangles.set(a.triangles);
  for (let i = 0; i < b.triangles.length; i++) triangles[a.triangles.length + i] = b.triangles[i] + a.bits.length;
  return { points, triangles, bits };
}

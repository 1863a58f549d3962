import type { Random } from '../../src/core/geometry/index.ts';

/** A triangulated surface in the design frame: xyz triples, mm, and what each vertex is. */
export interface Shell {
  readonly points: Float64Array;
  readonly triangles: Uint32Array;
  readonly bits: Uint16Array;
}

/** Grows a shell piece by piece. */
export class ShellBuilder {
  private readonly points: number[] = [];
  private readonly bits: number[] = [];
  private readonly triangles: number[] = [];

  get count(): number {
    return this.bits.length;
  }

  vertex(x: number, y: number, z: number, bits: number): number {
    this.points.push(x, y, z);
    this.bits.push(bits);
    return this.bits.length - 1;
  }

  triangle(a: number, b: number, c: number): void {
    this.triangles.push(a, b, c);
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
      points: Float64Array.from(this.points),
      triangles: Uint32Array.from(this.triangles),
      bits: Uint16Array.from(this.bits),
    };
  }
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
    points.set(shell.points.subarray(3 * i, 3 * i + 3), 3 * to[i]);
    bits[to[i]] = shell.bits[i];
  }
  const triangles: number[] = [];
  for (let i = 0; i < shell.triangles.length; i += 3) {
    const a = to[shell.triangles[i]];
    const b = to[shell.triangles[i + 1]];
    const c = to[shell.triangles[i + 2]];
    if (a >= 0 && b >= 0 && c >= 0) triangles.push(a, b, c);
  }
  return { points, triangles: Uint32Array.from(triangles), bits };
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

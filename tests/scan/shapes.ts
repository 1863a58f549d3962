import { seededRandom } from '../../src/core/geometry/index.ts';

export interface Shape {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
}

/** An open sheet of columns × rows points 1 mm apart with gentle bumps, seen from +z. */
export function bumpySheet(columns: number, rows: number, seed = 1): Shape {
  const random = seededRandom(seed);
  const positions = new Float64Array(columns * rows * 3);
  for (let i = 0; i < columns * rows; i++) {
    positions[i * 3] = i % columns;
    positions[i * 3 + 1] = Math.floor(i / columns);
    positions[i * 3 + 2] = random.between(0, 0.4);
  }
  const corners: number[] = [];
  for (let row = 0; row + 1 < rows; row++)
    for (let column = 0; column + 1 < columns; column++) {
      const a = row * columns + column;
      corners.push(a, a + 1, a + columns + 1, a, a + columns + 1, a + columns);
    }
  return { positions, triangles: Uint32Array.from(corners) };
}

/** A closed ball of the given radius about a centre, wound outward: a box of `cuts`² squares a side, blown up. */
export function ball(cuts: number, radius = 10, centre: readonly number[] = [0, 0, 0]): Shape {
  const numbers = new Map<string, number>();
  const positions: number[] = [];
  const corners: number[] = [];
  const vertex = (p: readonly number[]): number => {
    const key = p.join();
    let known = numbers.get(key);
    if (known === undefined) {
      known = numbers.size;
      numbers.set(key, known);
      const length = Math.hypot(...p);
      for (let axis = 0; axis < 3; axis++) positions.push(centre[axis] + (radius * p[axis]) / length);
    }
    return known;
  };
  for (let axis = 0; axis < 3; axis++)
    for (const side of [-cuts, cuts])
      for (let i = 0; i < cuts; i++)
        for (let j = 0; j < cuts; j++) {
          const at = (di: number, dj: number) => {
            const p = [0, 0, 0];
            p[axis] = side;
            p[(axis + 1) % 3] = 2 * (i + di) - cuts;
            p[(axis + 2) % 3] = 2 * (j + dj) - cuts;
            return vertex(p);
          };
          const [a, b, c, d] =
            side > 0 ? [at(0, 0), at(1, 0), at(1, 1), at(0, 1)] : [at(0, 0), at(0, 1), at(1, 1), at(1, 0)];
          corners.push(a, b, c, a, c, d);
        }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(corners) };
}

/** Several shapes in one. */
export function together(...shapes: readonly Shape[]): Shape {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const shape of shapes) {
    const first = positions.length / 3;
    for (const value of shape.positions) positions.push(value);
    for (const corner of shape.triangles) triangles.push(corner + first);
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

export const moved = (shape: Shape, x: number, y: number, z: number): Shape => ({
  ...shape,
  positions: shape.positions.map((value, i) => value + [x, y, z][i % 3]),
});

/** The shape with its vertices in another order. */
export function shuffled(shape: Shape, seed: number): Shape & { readonly placeOf: Uint32Array } {
  const random = seededRandom(seed);
  const count = shape.positions.length / 3;
  const placeOf = Uint32Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    const j = random.below(i + 1);
    [placeOf[i], placeOf[j]] = [placeOf[j], placeOf[i]];
  }
  const positions = new Float64Array(shape.positions.length);
  for (let i = 0; i < count; i++) positions.set(shape.positions.subarray(i * 3, i * 3 + 3), placeOf[i] * 3);
  return { positions, triangles: shape.triangles.map((corner) => placeOf[corner]), placeOf };
}

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A text PLY, numbers in full. */
export function textPly(shape: Shape, lineEnd = '\n'): Uint8Array {
  const lines = ['ply', 'format ascii 1.0', `element vertex ${shape.positions.length / 3}`];
  lines.push('property double x', 'property double y', 'property double z');
  lines.push(`element face ${shape.triangles.length / 3}`, 'property list uchar int vertex_indices', 'end_header');
  lines.push(
    ...triples(shape.positions).map((p) => p.join(' ')),
    ...triples(shape.triangles).map((t) => `3 ${t.join(' ')}`),
  );
  return bytesOf(`${lines.join(lineEnd)}${lineEnd}`);
}

export function textStl(shape: Shape, name = 'part'): Uint8Array {
  const points = triples(shape.positions);
  const facets = triples(shape.triangles).map((corners) => {
    const loop = corners.map((corner) => `      vertex ${points[corner].join(' ')}\n`).join('');
    return `  facet normal 0 0 0\n    outer loop\n${loop}    endloop\n  endfacet\n`;
  });
  return bytesOf(`solid ${name}\n${facets.join('')}endsolid ${name}\n`);
}

export function binaryStl(shape: Shape, header = 'binary'): Uint8Array {
  const count = shape.triangles.length / 3;
  const out = new Uint8Array(84 + count * 50);
  out.set(bytesOf(header).subarray(0, 80));
  const view = new DataView(out.buffer);
  view.setUint32(80, count, true);
  shape.triangles.forEach((corner, i) => {
    for (let axis = 0; axis < 3; axis++)
      view.setFloat32(
        84 + Math.floor(i / 3) * 50 + 12 + (i % 3) * 12 + axis * 4,
        shape.positions[corner * 3 + axis],
        true,
      );
  });
  return out;
}

export function textObj(shape: Shape): Uint8Array {
  const lines = triples(shape.positions).map((p) => `v ${p.join(' ')}`);
  lines.push(...triples(shape.triangles).map((t) => `f ${t.map((corner) => corner + 1).join(' ')}`));
  return bytesOf(`${lines.join('\n')}\n`);
}

export function triples(values: ArrayLike<number>): number[][] {
  const out: number[][] = [];
  for (let i = 0; i < values.length; i += 3) out.push([values[i], values[i + 1], values[i + 2]]);
  return out;
}

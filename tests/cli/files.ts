/** Files that nobody can use, by name. */
export function badFiles(sound: Uint8Array): Readonly<Record<string, string | Uint8Array>> {
  const noise = Uint8Array.from({ length: 4000 }, (_, i) => (i * 7919 + (i >> 3) * 31 + 13) % 251);
  const hugeStl = new Uint8Array(284);
  new DataView(hugeStl.buffer).setUint32(80, 4_000_000_000, true);
  return {
    'empty.ply': '',
    'cut.ply': sound.subarray(0, sound.length >> 1),
    'header only.ply': sound.subarray(0, 60),
    'noise.stl': noise,
    'noise.ply': noise,
    'noise.glb': noise,
    'huge.ply':
      'ply\nformat binary_little_endian 1.0\nelement vertex 4000000000\nproperty float x\nproperty float y\nproperty float z\nelement face 4000000000\nproperty list uchar int vertex_indices\nend_header\n',
    'huge.stl': hugeStl,
    'notes.txt': 'The matrix was found in the garden.\n',
    'picture.ply': Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, ...noise.subarray(0, 500)),
    'points.obj': cubeCorners,
    'nan.obj': `${'v nan nan nan\n'.repeat(8)}${cubeSides}`,
    'far.obj': `${'v 1e999 0 0\n'.repeat(8)}${cubeSides}`,
  };
}

/** Files that are sound but show no engraved face. */
export const faceless: Readonly<Record<string, string>> = {
  get 'one triangle.obj'() {
    return 'v 0 0 0\nv 20 0 0\nv 0 20 0\nf 1 2 3\n';
  },
  get 'cube.obj'() {
    return cubeCorners + cubeSides;
  },
  get 'plate.obj'() {
    return plate((_x, _y) => 0);
  },
  get 'bowl.obj'() {
    return plate((x, y) => 0.004 * (x * x + y * y));
  },
};

const cubeCorners = [0, 20].flatMap((x) => [0, 20].flatMap((y) => [0, 20].map((z) => `v ${x} ${y} ${z}\n`))).join('');
const cubeSides = ['1 2 4 3', '5 7 8 6', '1 5 6 2', '3 4 8 7', '1 3 7 5', '2 6 8 4'].map((f) => `f ${f}\n`).join('');

/** 61 × 61 points over 30 mm. */
function plate(height: (x: number, y: number) => number): string {
  const lines: string[] = [];
  for (let r = 0; r <= 60; r++)
    for (let c = 0; c <= 60; c++) {
      const [x, y] = [c / 2 - 15, r / 2 - 15];
      lines.push(`v ${x} ${y} ${height(x, y)}`);
    }
  for (let r = 0; r < 60; r++)
    for (let c = 0; c < 60; c++) {
      const i = 61 * r + c + 1;
      lines.push(`f ${i} ${i + 1} ${i + 62} ${i + 61}`);
    }
  return `${lines.join('\n')}\n`;
}

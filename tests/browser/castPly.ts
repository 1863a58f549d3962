/** A round cast with letters' worth of relief, as binary PLY, of about `side`² · π/2 triangles; lengths times acrossMm / 50. */
export function castPly(side: number, acrossMm = 50): Buffer {
  const index = new Int32Array(side * side).fill(-1);
  const places: number[] = [];
  for (let i = 0; i < side * side; i++) {
    const x = ((i % side) / (side - 1) - 0.5) * 50;
    const y = (Math.floor(i / side) / (side - 1) - 0.5) * 50;
    const r = Math.hypot(x, y);
    if (r > 24.8) continue;
    const a = Math.atan2(y, x);
    const letters = r > 17 && r < 21 ? 0.5 * Math.max(0, Math.sin(a * 23) + 0.5 * Math.sin(a * 7 + r)) : 0;
    index[i] = places.length / 3;
    places.push(
      x,
      y,
      letters + 0.8 * Math.exp(-((x - 2) ** 2 + (y + 3) ** 2) / 30) + 0.1 * Math.sin(x * 1.3) * Math.cos(y * 0.9),
    );
  }
  const faces: number[] = [];
  for (let row = 0; row < side - 1; row++)
    for (let col = 0; col < side - 1; col++) {
      const i = row * side + col;
      const [a, b, c, d] = [index[i], index[i + 1], index[i + side], index[i + side + 1]];
      if (a >= 0 && b >= 0 && c >= 0 && d >= 0) faces.push(a, b, c, b, d, c);
    }
  const head = `ply\nformat binary_little_endian 1.0\nelement vertex ${places.length / 3}\nproperty float x\nproperty float y\nproperty float z\nelement face ${faces.length / 3}\nproperty list uchar int vertex_indices\nend_header\n`;
  const body = Buffer.alloc(places.length * 4 + (faces.length / 3) * 13);
  places.forEach((value, i) => {
    body.writeFloatLE((value * acrossMm) / 50, 4 * i);
  });
  for (let i = 0; i < faces.length; i += 3) {
    const at = places.length * 4 + (i / 3) * 13;
    body.writeUInt8(3, at);
    for (const k of [0, 1, 2]) body.writeInt32LE(faces[i + k], at + 1 + 4 * k);
  }
  return Buffer.concat([Buffer.from(head, 'latin1'), body]);
}

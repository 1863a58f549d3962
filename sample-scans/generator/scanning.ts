import type { Random } from '../../src/core/geometry/index.ts';
import { smoothField } from './chance.ts';
import { dropUnused, joinShells, keepVertices, type Shell } from './shell.ts';
import { bit } from './types.ts';

/** What a scanner does to a surface. */
export interface ScanFaults {
  /** 1 σ, mm, correlated over about `correlationMm`. */
  readonly correlatedMm: number;
  readonly whiteMm: number;
  readonly correlationMm: number;
  readonly holes: number;
  readonly holeMm: number;
  /** Vertices thrown far off, of a thousand. */
  readonly spikesPerThousand: number;
  readonly strayPieces: number;
  /** Share of the surface that was recorded twice, a little apart. */
  readonly doubledShare: number;
  readonly shuffled: boolean;
}

/** A scanned shell: `points` with noise, `clean` without, both in the design frame. */
export interface ScannedShell extends Shell {
  readonly clean: Float64Array;
}

/** Holes, a doubled layer, noise along the normals, spikes, stray pieces; then the order of a real file. */
export function scan(shell: Shell, faults: ScanFaults, sizeMm: number, random: Random): ScannedShell {
  let surface = punch(shell, faults, random);
  if (faults.doubledShare > 0) surface = doubled(surface, faults.doubledShare, sizeMm, random);
  const clean = surface.points;
  const points = noisy(surface, faults, random);
  spikes(points, surface.bits, faults.spikesPerThousand, random);
  let scanned: ScannedShell = { ...surface, points, clean };
  for (let i = 0; i < faults.strayPieces; i++) scanned = withStray(scanned, sizeMm, random);
  return faults.shuffled ? shuffled(scanned, random) : scanned;
}

/** Ragged holes where the scanner saw nothing. */
function punch(shell: Shell, faults: ScanFaults, random: Random): Shell {
  const holes = Array.from({ length: faults.holes }, () => {
    const at = random.below(shell.bits.length);
    return {
      x: shell.points[3 * at],
      y: shell.points[3 * at + 1],
      z: shell.points[3 * at + 2],
      r: faults.holeMm * random.between(0.3, 1),
      rough: smoothField(random, faults.holeMm * 0.5),
    };
  });
  if (holes.length === 0) return shell;
  const p = shell.points;
  const rest = keepVertices(shell, (i) => {
    for (const h of holes) {
      const away = Math.hypot(p[3 * i] - h.x, p[3 * i + 1] - h.y, p[3 * i + 2] - h.z);
      if (away < h.r * (1 + 0.5 * h.rough(p[3 * i], p[3 * i + 1]))) return false;
    }
    return true;
  });
  return dropUnused(rest);
}

/** A strip of the surface again, 10 to 50 µm off, with its own vertices. */
function doubled(shell: Shell, share: number, sizeMm: number, random: Random): Shell {
  const angle = random.between(0, Math.PI);
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const from = random.between(-0.4, 0.3) * sizeMm;
  const lift = random.between(0.01, 0.05) * (random.next() < 0.5 ? -1 : 1);
  const copy = dropUnused(
    keepVertices(shell, (i) => {
      const u = c * shell.points[3 * i] + s * shell.points[3 * i + 1];
      return u > from && u < from + share * sizeMm;
    }),
  );
  for (let i = 0; i < copy.points.length; i += 3) copy.points[i + 2] += lift;
  return joinShells(shell, copy);
}

function noisy(shell: Shell, faults: ScanFaults, random: Random): Float64Array {
  const normals = normalsOf(shell);
  const fields = [0, 1].map((k) => smoothField(random, faults.correlationMm * (k + 1)));
  const p = shell.points;
  const out = new Float64Array(p.length);
  // The lattice noise has a standard deviation of about 0.34; two layers are joined by root sum of squares.
  const strength = faults.correlatedMm / (0.34 * Math.SQRT2);
  for (let i = 0; i < p.length; i += 3) {
    const u = p[i] + 0.7 * p[i + 2];
    const v = p[i + 1] - 0.6 * p[i + 2];
    const along = strength * (fields[0](u, v) + fields[1](u, v)) + faults.whiteMm * random.normal();
    for (let a = 0; a < 3; a++) out[i + a] = p[i + a] + normals[i + a] * along;
  }
  return out;
}

export function normalsOf(shell: Shell): Float64Array {
  const { points: p, triangles: t } = shell;
  const n = new Float64Array(p.length);
  for (let i = 0; i < t.length; i += 3) {
    const a = 3 * t[i];
    const b = 3 * t[i + 1];
    const c = 3 * t[i + 2];
    const ux = p[b] - p[a];
    const uy = p[b + 1] - p[a + 1];
    const uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a];
    const vy = p[c + 1] - p[a + 1];
    const vz = p[c + 2] - p[a + 2];
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    for (const k of [a, b, c]) {
      n[k] += nx;
      n[k + 1] += ny;
      n[k + 2] += nz;
    }
  }
  for (let i = 0; i < n.length; i += 3) {
    const length = Math.hypot(n[i], n[i + 1], n[i + 2]) || 1;
    n[i] /= length;
    n[i + 1] /= length;
    n[i + 2] /= length;
  }
  return n;
}

function spikes(points: Float64Array, bits: Uint16Array, perThousand: number, random: Random): void {
  const count = Math.round((perThousand * bits.length) / 1000);
  for (let k = 0; k < count; k++) {
    const i = random.below(bits.length);
    for (let a = 0; a < 3; a++) points[3 * i + a] += random.normal() * random.between(0.1, 1.2);
    bits[i] |= bit.spike;
  }
}

/** A loose scrap of a few dozen triangles near the object. */
function withStray(scanned: ScannedShell, sizeMm: number, random: Random): ScannedShell {
  const side = 3 + random.below(6);
  const x0 = random.between(-0.8, 0.8) * sizeMm;
  const y0 = random.between(-0.8, 0.8) * sizeMm;
  const z0 = random.between(1.5, 8) * (random.next() < 0.5 ? -1 : 1);
  const step = random.between(0.1, 0.3);
  const points: number[] = [];
  const triangles: number[] = [];
  for (let j = 0; j < side; j++)
    for (let i = 0; i < side; i++) {
      points.push(
        x0 + i * step + 0.1 * random.normal() * step,
        y0 + j * step + 0.1 * random.normal() * step,
        z0 + 0.2 * step * random.normal(),
      );
      if (i === 0 || j === 0) continue;
      const k = j * side + i;
      triangles.push(k - side - 1, k - side, k, k - side - 1, k, k - 1);
    }
  const piece: Shell = {
    points: Float64Array.from(points),
    triangles: Uint32Array.from(triangles),
    bits: new Uint16Array(side * side).fill(bit.spike),
  };
  const all = joinShells(scanned, piece);
  const clean = new Float64Array(all.points.length);
  clean.set(scanned.clean);
  clean.set(piece.points, scanned.clean.length);
  return { ...all, clean };
}

/** The same surface with vertices and triangles in an order that tells nothing. */
function shuffled(scanned: ScannedShell, random: Random): ScannedShell {
  const n = scanned.bits.length;
  const order = permutation(n, random);
  const points = new Float64Array(3 * n);
  const clean = new Float64Array(3 * n);
  const bits = new Uint16Array(n);
  for (let i = 0; i < n; i++) {
    const k = order[i];
    for (let a = 0; a < 3; a++) {
      points[3 * k + a] = scanned.points[3 * i + a];
      clean[3 * k + a] = scanned.clean[3 * i + a];
    }
    bits[k] = scanned.bits[i];
  }
  return { points, clean, bits, triangles: scanned.triangles.map((i) => order[i]) };
}

function permutation(n: number, random: Random): Uint32Array {
  const order = new Uint32Array(n);
  for (let i = 0; i < n; i++) order[i] = i;
  for (let i = n - 1; i > 0; i--) {
    const k = random.below(i + 1);
    const held = order[i];
    order[i] = order[k];
    order[k] = held;
  }
  return order;
}

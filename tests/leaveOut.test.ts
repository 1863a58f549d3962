import { describe, expect, it } from 'vitest';
import type { GeneratedPair } from '../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../sample-scans/generator/node.ts';
import { type ExcludedRegion, insidePolygon, keptShare, withoutRegions } from '../src/core/face/index.ts';
import { faceMotion } from '../src/core/fit/index.ts';
import { apply, invert, outlineArea, rotate, transpose3, type Vec2 } from '../src/core/geometry/index.ts';
import { type Comparison, comparePrepared, type Given, type PreparedScan, preparePair } from '../src/core/pipeline.ts';
import { limitWords } from '../src/core/report/words/index.ts';
import { writePly } from '../src/core/scan/index.ts';

const pair: GeneratedPair = makePair({
  ...randomRecipe(22, 'same', { vertices: 14_000 }),
  whole: false,
  coverage: 1,
  wear: 0.2,
});
const asFile = (positions: Float64Array, triangles: Uint32Array, name: string) => ({
  name,
  bytes: writePly(positions, triangles),
  unit: 'mm' as const,
});
const prepare = (subject: Float64Array): Promise<[PreparedScan, PreparedScan]> =>
  preparePair(
    asFile(Float64Array.from(pair.reference.positions), pair.reference.triangles, 'die.ply'),
    asFile(subject, pair.subject.triangles, 'wax.ply'),
  );

const radiusMm = 4;
const centre: Vec2 = [-4, 3];
const circle = (radius: number): Vec2[] =>
  Array.from({ length: 48 }, (_, k): Vec2 => {
    const a = (2 * Math.PI * k) / 48;
    return [centre[0] + radius * Math.cos(a), centre[1] + radius * Math.sin(a)];
  });
const repair: ExcludedRegion = { outline: circle(radiusMm + 0.4), why: 'repair in wax', by: 'A. Tester' };

const [die, wax] = await prepare(Float64Array.from(pair.subject.positions));
const sound = comparePrepared(die, wax);
const damaged = (await prepare(withLump(sound, 0.9)))[1];

/** The subject's vertices with a smooth lump over the circle on the reference's face, `high` mm. */
function withLump({ reference, subject, fit }: Comparison, high: number): Float64Array {
  const { positions, offset } = subject.scan.mesh;
  const [x, y] = apply(invert(faceMotion(reference.face, subject.face, fit.models[1])), [...centre, 0]);
  const out = Float64Array.from(positions);
  const up = rotate(transpose3(subject.face.faceFromScan.rotation), [0, 0, 1]);
  for (let i = 0; i < out.length; i += 3) {
    const p = apply(subject.face.faceFromScan, [positions[i], positions[i + 1], positions[i + 2]]);
    const t = 1 - ((p[0] - x) ** 2 + (p[1] - y) ** 2) / radiusMm ** 2;
    if (t <= 0 || p[2] < -3) continue;
    for (let k = 0; k < 3; k++) out[i + k] += high * t * t * up[k];
  }
  return out.map((value, i) => value + offset[i % 3]);
}

/** The numbers that a reader would compare, mm and ratios. */
function numbers({ fit, difference, judgement }: Comparison) {
  if (!difference) throw new Error('no fit was found');
  return {
    median: difference.whole.medianMm,
    rms: difference.whole.rmsMm,
    p95: difference.whole.p95Mm,
    scale: fit.models[1].scale,
    size: difference.size.ratio,
    correlation: judgement.correlation,
  };
}

const leavingOut = (excluded: readonly ExcludedRegion[], subject = damaged, given: Given = {}): Comparison =>
  comparePrepared(die, subject, {}, undefined, { ...given, excluded });

describe('a region that a person leaves out', () => {
  const spoilt = comparePrepared(die, damaged);
  const again = leavingOut([repair]);

  it('spoils the numbers as long as it is in: the test has something to show', () => {
    expect(numbers(spoilt).rms).toBeGreaterThan(1.3 * numbers(sound).rms);
  });

  it('brings back the numbers of the undamaged pair when it is left out', () => {
    const [is, was] = [numbers(again), numbers(sound)];
    expect(Math.abs(is.median - was.median)).toBeLessThan(0.005);
    expect(Math.abs(is.rms - was.rms)).toBeLessThan(0.008);
    expect(Math.abs(is.p95 - was.p95)).toBeLessThan(0.015);
    expect(Math.abs(is.scale - was.scale)).toBeLessThan(0.0005);
    expect(Math.abs(is.size - was.size)).toBeLessThan(0.0005);
    expect(Math.abs(is.correlation - was.correlation)).toBeLessThan(0.03);
    expect(again.judgement.finding).toBe(sound.judgement.finding);
  });

  it('gives what the undamaged pair gives without that region, whatever lies in it', () => {
    const [is, was] = [numbers(again), numbers(leavingOut([repair], wax))];
    for (const name of ['median', 'rms', 'p95', 'scale', 'size', 'correlation'] as const)
      expect(Math.abs(is[name] - was[name])).toBeLessThan(name === 'correlation' ? 0.01 : 0.002);
  });

  it('leaves no difference and no mark on the region, and says so', () => {
    const { difference, judgement } = again;
    if (!difference) throw new Error('no fit was found');
    const { map } = difference;
    // The map lies in the impression's sense, an engraved face turned over on it.
    const inside = insidePolygon(map, Float64Array.from(circle(radiusMm - 0.3).flatMap(([x, y]) => [-x, y])));
    expect(inside.reduce((sum, v) => sum + v, 0)).toBeGreaterThan(200);
    expect(inside.some((v, i) => v === 1 && map.mask[i] === 1)).toBe(false);
    for (const { outline } of judgement.damage)
      for (let i = 0; i < outline.length; i += 2)
        expect(Math.hypot(outline[i] - centre[0], outline[i + 1] - centre[1])).toBeGreaterThan(radiusMm - 0.5);
    expect(again.excluded).toEqual([repair]);
    expect(judgement.limits.map(limitWords).join(' ')).toContain('repair in wax, 60.');
    expect(judgement.limits.map(limitWords).join(' ')).toContain('A. Tester');
  });

  it('changes nothing when there is none', () => {
    const none = leavingOut([]);
    expect(none.excluded).toBeUndefined();
    expect(numbers(none)).toEqual(numbers(spoilt));
    expect(none.judgement).toEqual(spoilt.judgement);
  });

  it('is the same with the scans exchanged, to the fit', () => {
    const place = (p: Vec2): Vec2 => {
      const [x, y] = apply(invert(faceMotion(die.face, wax.face, sound.fit.models[1])), [...p, 0]);
      return [x, y];
    };
    const back = comparePrepared(damaged, die, {}, undefined, {
      excluded: [{ ...repair, outline: repair.outline.map(place) }],
    });
    expect(back.fit.models[1].scale * again.fit.models[1].scale).toBeCloseTo(1, 3);
  });

  it('is refused in words where next to nothing of the face would be left', () => {
    const all: ExcludedRegion = {
      outline: [
        [-99, -99],
        [99, -99],
        [99, 99],
        [-99, 99],
      ],
      why: '',
      by: '',
    };
    const { fit, difference } = leavingOut([all]);
    expect(fit.found).toBe(false);
    expect(fit.doubts[0]).toEqual({ code: 'tooLittleLeft', leastShare: 0.2 });
    expect(difference).toBeNull();
  });

  it('goes together with a start by hand', () => {
    const begun = leavingOut([repair], damaged, { start: { from: 'turn', turnDeg: 2 } });
    expect(Math.abs(numbers(begun).rms - numbers(again).rms)).toBeLessThan(0.002);
    expect(limitWords(begun.judgement.limits[0])).toMatch(/^The fit began at a turn chosen by hand, 2\.0°/);
  });
});

describe('withoutRegions', () => {
  it('takes out the area of the outline, and no other cell', () => {
    const cut = withoutRegions(die.face, [circle(radiusMm)]);
    const gone = die.face.relief.mask.reduce((sum, m, i) => sum + (m && !cut.relief.mask[i] ? 1 : 0), 0);
    expect((gone * die.face.relief.pitch ** 2) / (Math.PI * radiusMm ** 2)).toBeCloseTo(1, 1);
    expect(outlineArea(circle(radiusMm)) / (Math.PI * radiusMm ** 2)).toBeCloseTo(1, 2);
    expect(keptShare(die.face, cut)).toBeLessThan(1);
    expect(withoutRegions(die.face, [])).toBe(die.face);
  });
});

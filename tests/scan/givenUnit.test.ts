import { describe, expect, it } from 'vitest';
import { prepareScan } from '../../src/core/pipeline.ts';
import { ScanError } from '../../src/core/scan/index.ts';
import { needing, realData } from '../realData.ts';
import { makeX3p } from './makers.ts';

/** A round face of 30 mm with a border, a legend of bosses and a device, in a unit of which there are `perMm` in a mm. */
function face(perMm: number): Uint8Array {
  const side = 160;
  const pitchMm = 0.2;
  const heights = Float64Array.from({ length: side * side }, (_, i) => {
    const x = ((i % side) - side / 2) * pitchMm;
    const y = (Math.floor(i / side) - side / 2) * pitchMm;
    const radius = Math.hypot(x, y);
    const turn = Math.atan2(y, x);
    if (radius > 15) return Number.NaN;
    const border = Math.exp(-(((radius - 14) / 0.4) ** 2));
    const legend = radius > 9 && radius < 13 ? Math.max(0, Math.sin(13 * turn) * Math.sin(2 * radius)) ** 2 : 0;
    const device = radius < 7 ? 0.8 * Math.max(0, Math.cos(1.1 * x + 0.3) * Math.sin(0.9 * y)) : 0;
    return 0.5 * (border + legend + device) * perMm;
  });
  return makeX3p(side, side, heights, false, pitchMm * perMm);
}

const prepared = (bytes: Uint8Array, unit?: 'um' | 'm') =>
  prepareScan({ name: 'a.x3p', bytes, unit, sha256: () => '' }).catch((error: unknown) => {
    if (error instanceof ScanError) return error;
    throw error;
  });

describe('a unit that the file gives', () => {
  it('is believed where it makes an object that can be', async () =>
    expect(await prepared(face(0.001))).toMatchObject({ scan: { unit: 'm', unitFrom: 'file' } }));

  it('is asked about where it makes a face of kilometres, naming the option and the unit that fits', async () => {
    const error = await prepared(face(1000));
    expect(error).toMatchObject({ code: 'unitNeeded', unitChoice: { units: ['um'] } });
    expect((error as ScanError).message).toMatch(
      /^a\.x3p: the unit in the file, m, would make the face \d{8} mm across, which it cannot be; state it with --unit um\.$/,
    );
  });

  it('is overruled by the user, and gives the same face', async () => {
    const [metres, micrometres] = await Promise.all([prepared(face(0.001)), prepared(face(1000), 'um')]);
    if (metres instanceof ScanError || micrometres instanceof ScanError) throw metres;
    expect(micrometres.scan).toMatchObject({ unit: 'um', unitFrom: 'stated' });
    expect(micrometres.face.outline.widthMm).toBeCloseTo(metres.face.outline.widthMm, 1);
  });

  it('stated by the user it still makes no face of kilometres: nothing is laid out in it', async () => {
    const error = await prepared(face(1000), 'm');
    expect(error).toMatchObject({ code: 'unitNeeded' });
    expect((error as ScanError).message).toContain('the unit stated, m, would make the face');
  });

  it.skipIf(!realData('same-tool/fadul1-1.x3p'))(
    needing('same-tool/fadul1-1.x3p', 'a real object of 4 mm keeps the metres of its file'),
    { timeout: 120_000 },
    async () =>
      expect(await prepared(realData('same-tool/fadul1-1.x3p') ?? new Uint8Array(0))).toMatchObject({
        scan: { unit: 'm', unitFrom: 'file' },
      }),
  );
});

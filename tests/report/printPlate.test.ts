import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { emptyGrid, type HeightGrid, withHeights, xOf, yOf } from '../../src/core/geometry/index.ts';
import { type PlateObject, paintDots, paintPlate, printPlate } from '../../src/core/report/index.ts';

/** A round relief `mm` across with rings of 2 mm, 0.2 mm high. */
function ringed(mm: number, pitch = 0.2): HeightGrid {
  const grid = emptyGrid(-mm / 2, mm / 2, -mm / 2, mm / 2, pitch);
  const radius = (i: number): number => Math.hypot(xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width)));
  const mask = grid.mask.map((_, i) => (radius(i) <= mm / 2 ? 1 : 0));
  return withHeights(
    grid,
    grid.z.map((_, i) => 0.1 * Math.sin(Math.PI * radius(i))),
    mask,
  );
}

const object = (mm: number): PlateObject => ({
  face: {
    detail: ringed(mm),
    sense: 'relief',
    outline: { shape: 'round', widthMm: mm, heightMm: mm },
  },
  view: 'asItIs',
  kind: 'impression',
});

/** A stand-in for the rasteriser: white paper, on which nothing is drawn. */
const blank = (svg: string, across: number) => {
  const [, , , w, h] = /viewBox="(\S+) (\S+) (\S+) (\S+)"/.exec(svg) as RegExpExecArray;
  const height = Math.round((across * Number(h)) / Number(w));
  return { width: across, height, rgba: new Uint8Array(4 * across * height).fill(255) };
};

describe('a plate for print', () => {
  it('at natural size and 600 dots an inch shows a seal of 62 mm in at least 1,460 dots, within one of the truth', () => {
    const [picture] = printPlate([object(62)], { printScale: 1, dpi: 600 }).pictures;
    expect(picture.height).toBeGreaterThanOrEqual(1460);
    expect(Math.abs(picture.height - (62 * 600) / 25.4)).toBeLessThan(6);
  });

  it('has a bar within one dot of its length, whatever scale and resolution', () => {
    for (const printScale of [0.5, 1, 2])
      for (const dpi of [150, 300, 600]) {
        const { drawing } = printPlate([object(30)], { printScale, dpi });
        const bar = drawing.marks.find((mark) => mark.kind === 'line');
        const label = drawing.marks.find((mark) => mark.kind === 'text' && / mm$/.test(mark.text));
        if (bar?.kind !== 'line' || label?.kind !== 'text') throw new Error('no bar');
        const dots = ((bar.points[4] - bar.points[2]) * dpi) / 72;
        const truth = (Number.parseFloat(label.text) * printScale * dpi) / 25.4;
        expect(Math.abs(dots - truth)).toBeLessThan(1);
      }
  });

  it('brings all objects to one scale', () => {
    const { pictures } = printPlate([object(20), object(40)], { printScale: 1, dpi: 300 });
    expect(pictures[1].height / pictures[0].height).toBeCloseTo(2, 1);
  });

  it('leaves room for the words under seals that are narrower than they', () => {
    const { drawing } = printPlate([object(8), object(8), object(8)], { printScale: 1, dpi: 300 });
    const names = drawing.marks.filter((mark) => mark.kind === 'text' && / × /.test(mark.text));
    const ends = names.map((mark) => {
      if (mark.kind !== 'text') throw new Error('no words');
      const half = (0.46 * mark.size * mark.text.length) / 2;
      return [mark.x - half, mark.x + half];
    });
    expect(ends).toHaveLength(3);
    for (const [k, [from, to]] of ends.entries()) {
      expect(from).toBeGreaterThan(k === 0 ? 0 : ends[k - 1][1]);
      expect(to).toBeLessThan(drawing.width);
    }
  });

  it('draws its objects as told, and says so in place of its lamps', () => {
    const draw = (grid: HeightGrid): Uint8ClampedArray => new Uint8ClampedArray(grid.z.length).fill(99);
    const options = { printScale: 1, dpi: 150, look: { draw, says: 'All grey.' } };
    const { pictures, caption } = printPlate([object(20)], options);
    expect(pictures[0].grey.every((grey) => grey === 99)).toBe(true);
    expect(caption).toContain('All grey.');
    expect(caption).not.toContain('Lit from');
  });

  it('keeps its greys printable: under 2 % pure black or white', () => {
    const [{ grey, mask }] = printPlate([object(30)], { printScale: 1, dpi: 600 }).pictures;
    let [pure, all] = [0, 0];
    for (let i = 0; i < grey.length; i++) {
      if (!mask[i]) continue;
      all++;
      if (grey[i] === 0 || grey[i] === 255) pure++;
    }
    expect(pure / all).toBeLessThan(0.02);
  });

  // Referee: fast-png reads the resolution chunk that its encoder does not write.
  it('as PNG carries its resolution and the lit dots unchanged', () => {
    const plate = printPlate([object(20)], { printScale: 1, dpi: 300 });
    const file = paintPlate(plate, 'png', blank) as Uint8Array;
    const { width, data, resolution } = decode(file);
    expect(resolution).toMatchObject({ x: 11811, y: 11811, unit: 1 });
    const [{ left, top, grey, width: across, height }] = plate.pictures;
    const at = (height >> 1) * across + (across >> 1);
    expect(data[(top + (height >> 1)) * width + left + (across >> 1)]).toBe(grey[at]);
  });

  // The tags of TIFF 6.0, read by their numbers in the specification.
  it('as TIFF holds size, resolution and the painted dots', () => {
    const plate = printPlate([object(20)], { printScale: 1, dpi: 300 });
    const file = paintPlate(plate, 'tif', blank) as Uint8Array;
    const painted = paintDots(plate, blank);
    const view = new DataView(file.buffer);
    expect([file[0], file[1], view.getUint16(2, true)]).toEqual([0x49, 0x49, 42]);
    const first = view.getUint32(4, true);
    const entries = new Map(
      Array.from({ length: view.getUint16(first, true) }, (_, i) => {
        const at = first + 2 + 12 * i;
        return [view.getUint16(at, true), view.getUint32(at + 8, true)] as const;
      }),
    );
    expect([...entries.keys()]).toEqual([...entries.keys()].sort((p, q) => p - q));
    expect([entries.get(256), entries.get(257)]).toEqual([painted.width, painted.height]);
    expect(view.getUint32(entries.get(282) as number, true)).toBe(300);
    const strip = entries.get(273) as number;
    expect(strip + (entries.get(279) as number)).toBe(file.length);
    expect(Buffer.from(file.subarray(strip)).equals(Buffer.from(painted.grey))).toBe(true);
  });

  it('as SVG states its size in millimetres and holds the picture', () => {
    const svg = paintPlate(printPlate([object(20)], { printScale: 1, dpi: 300 }), 'svg', blank) as string;
    expect(svg).toMatch(/width="[\d.]+mm" height="[\d.]+mm"/);
    expect(svg).toContain('data:image/png;base64,');
  });

  it('begins no line of its caption with a sign that in French stands alone', () => {
    for (const dpi of [150, 151, 200, 333]) {
      const options = { printScale: 1, dpi, language: 'fr', soft: 0.3, credit: 'Musée de la ville' } as const;
      for (const mm of [14, 20, 27, 40])
        for (const mark of printPlate([object(mm)], options).drawing.marks)
          if (mark.kind === 'text') expect(mark.text).not.toMatch(/^[:;?!»]/);
    }
  });

  it('says its scale, its light, whose it is, and that scans are simulated', () => {
    const { caption } = printPlate([object(20)], { printScale: 1.5, dpi: 600, credit: 'Town Museum', simulated: true });
    for (const part of ['Simulated scans.', '1.5 times natural size', '600 dots per inch', '315°', 'Town Museum.'])
      expect(caption).toContain(part);
  });
});

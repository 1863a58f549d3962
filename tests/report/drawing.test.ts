import { decode } from 'fast-png';
import { XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { base64 } from '../../src/core/report/drawing/base64.ts';
import { blankCanvas, type Canvas } from '../../src/core/report/drawing/canvas.ts';
import { type Drawing, line, type Picture, rectangle, words } from '../../src/core/report/drawing/drawing.ts';
import { fillArea } from '../../src/core/report/drawing/fill.ts';
import { letterStrokes } from '../../src/core/report/drawing/lettering.ts';
import { letterShapes } from '../../src/core/report/drawing/letterShapes.ts';
import { drawPicture } from '../../src/core/report/drawing/paste.ts';
import { strokeLines } from '../../src/core/report/drawing/stroke.ts';
import { toPng, toSvg } from '../../src/core/report/index.ts';

const white = [255, 255, 255] as const;
const black = [0, 0, 0] as const;

/** How many pixels' worth of black lies on a white canvas. */
const inked = ({ rgb }: Canvas): number => rgb.reduce((sum, value) => sum + (255 - value), 0) / (3 * 255);

const picture: Picture = {
  width: 4,
  height: 3,
  channels: 4,
  data: Uint8Array.from({ length: 48 }, (_, i) => (i % 4 === 3 ? 255 : (i * 37) % 256)),
};

const drawing: Drawing = {
  width: 120,
  height: 60,
  title: 'A <test> & its "signs"',
  marks: [
    { kind: 'picture', x: 4, y: 4, width: 40, height: 30, picture },
    rectangle(50, 4, 20, 20, '#336699', 0.5),
    line([50, 40, 110, 40, 110, 50], 'accent', 1, { dash: [4, 2] }),
    words(60, 30, 'a < b & “c” −0.5 mm', 8, 'ink', { face: 'italic', rim: 'paper' }),
    words(10, 50, 'up', 8, 'soft', { upward: true, face: 'capitals' }),
  ],
};

describe('base64', () => {
  it('agrees with Node’s own at every length', () => {
    const random = seededRandom(4);
    for (const length of [0, 1, 2, 3, 4, 5, 31, 3000, 20_001]) {
      const bytes = Uint8Array.from({ length }, () => random.below(256));
      expect(base64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
    }
  });
});

describe('the pixels', () => {
  it('of a filled polygon add up to its area, wherever it lies', () => {
    const random = seededRandom(9);
    for (let k = 0; k < 10; k++) {
      const [x, y] = [random.between(5, 20), random.between(5, 20)];
      const [a, b] = [random.between(5, 30), random.between(5, 30)];
      const canvas = blankCanvas(80, 80, white);
      fillArea(canvas, [x, y, x + a, y, x + a + 5, y + b, x + 5, y + b], black);
      expect(Math.abs(inked(canvas) - a * b)).toBeLessThan(0.02 * a * b + 2);
    }
  });

  it('of a stroke add up to length × width and its round ends, at any slant', () => {
    for (const turn of [0, 0.3, 0.785, 1.2, 1.571, 2.5]) {
      const canvas = blankCanvas(120, 120, white);
      const [dx, dy] = [40 * Math.cos(turn), 40 * Math.sin(turn)];
      strokeLines(canvas, [[60 - dx, 60 - dy, 60 + dx, 60 + dy]], 5, black);
      const expected = 80 * 5 + (Math.PI * 25) / 4;
      expect(Math.abs(inked(canvas) - expected)).toBeLessThan(0.03 * expected);
    }
  });

  it('of a bent stroke are not darker where its pieces meet', () => {
    const canvas = blankCanvas(40, 40, white);
    strokeLines(
      canvas,
      [
        [5, 20, 20, 20, 20, 35],
        [20, 20, 35, 20],
      ],
      4,
      [128, 128, 128],
    );
    expect(Math.min(...canvas.rgb)).toBe(128);
  });

  it('of a stroke that leaves the canvas stay inside it', () => {
    const canvas = blankCanvas(10, 10, white);
    strokeLines(canvas, [[-50, 5, 50, 5]], 2, black);
    strokeLines(canvas, [[-50, -50, -20, -20]], 2, black);
    expect(inked(canvas)).toBeCloseTo(20, 5);
  });

  it('of a picture at its own size are the picture, and a clear one changes nothing', () => {
    const canvas = blankCanvas(4, 3, white);
    drawPicture(canvas, picture, 0, 0, 4, 3);
    expect([...canvas.rgb]).toEqual([...picture.data].filter((_, i) => i % 4 !== 3));
    const clear = { ...picture, data: picture.data.map((value, i) => (i % 4 === 3 ? 0 : value)) };
    const before = [...canvas.rgb];
    drawPicture(canvas, clear, 0, 0, 4, 3);
    expect([...canvas.rgb]).toEqual(before);
  });
});

describe('letters', () => {
  it('have a shape wherever the figures use one', () => {
    const used = 'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 .,:;+−±×°%²³/()=·–’';
    for (const letter of used) expect(letterShapes[letter], letter).toBeDefined();
  });
  it('set one after the other take the sum of their widths, and twice the size twice the width', () => {
    const width = (text: string, size = 10): number => letterStrokes(text, { size }).width;
    expect(width('matrix')).toBeCloseTo(
      [...'matrix'].reduce((sum, letter) => sum + width(letter), 0),
      9,
    );
    expect(width('matrix', 20)).toBeCloseTo(2 * width('matrix'), 9);
  });
  it('without a shape of their own lose their accent or become a question mark', () => {
    expect(letterStrokes('é', { size: 10 })).toEqual(letterStrokes('e', { size: 10 }));
    expect(letterStrokes('漢', { size: 10 })).toEqual(letterStrokes('?', { size: 10 }));
  });
});

describe('a drawing', () => {
  it('becomes well-formed SVG with its title for those who do not see it', () => {
    const svg = toSvg(drawing, { paper: true });
    expect(XMLValidator.validate(svg)).toBe(true);
    expect(svg).toContain('<title>A &lt;test&gt; &amp; its &quot;signs&quot;</title>');
  });

  it('has colours of its own as a file, and takes the page’s inside one', () => {
    const file = toSvg(drawing, { paper: true });
    expect(file).not.toContain('var(');
    expect(file).toMatch(/xlink:href="data:image/);
    expect(toSvg(drawing)).toMatch(/stroke:var\(--accent, #[0-9a-f]{6}\)/);
  });

  it('becomes a PNG of the asked width that carries its caption', () => {
    const png = decode(toPng(drawing, 240, 'Depth −0.2 mm “as found”'));
    expect([png.width, png.height, png.channels]).toEqual([240, 120, 3]);
    expect(png.text.Description).toBe('Depth -0.2 mm "as found"');
    expect(new Set(png.data).size).toBeGreaterThan(20);
  });

  it('keeps the greys of a picture with clear places through its packing', () => {
    const data = Uint8Array.from({ length: 24 }, (_, i) => (i % 2 === 0 ? i * 10 + 5 : i === 1 ? 0 : 255));
    const grey: Drawing = {
      ...drawing,
      marks: [
        { kind: 'picture', x: 0, y: 0, width: 4, height: 3, picture: { width: 4, height: 3, channels: 2, data } },
      ],
    };
    const [, packed] = /base64,([^"]+)"/.exec(toSvg(grey)) as RegExpExecArray;
    const back = decode(Buffer.from(packed, 'base64'));
    const palette = back.palette as number[][];
    const seen = [...back.data].map((index) => palette[index]);
    expect(seen[0][3]).toBe(0);
    for (let i = 1; i < 12; i++) expect([seen[i][0], seen[i][3] ?? 255]).toEqual([data[2 * i], 255]);
  });
});

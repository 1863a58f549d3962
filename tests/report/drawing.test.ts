import { decode } from 'fast-png';
import { XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import { rasteriser } from '../../src/cli/rasterise.ts';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { base64 } from '../../src/core/report/drawing/base64.ts';
import { type Drawing, line, type Picture, rectangle, words } from '../../src/core/report/drawing/drawing.ts';
import { toPng, toSvg } from '../../src/core/report/index.ts';

const rasterise = await rasteriser();

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

/** A drawing of the same size as its pixels, red, green and blue by row. */
function pixelsOf(marks: Drawing['marks'], width: number, height: number): Uint8Array {
  return decode(toPng({ width, height, title: '', marks }, rasterise, width)).data as Uint8Array;
}

/** How many pixels' worth of black lies on the paper. */
function inked(pixels: Uint8Array): number {
  const paper = [0xfb, 0xf8, 0xf1];
  return pixels.reduce((sum, value, i) => sum + (paper[i % 3] - value) / paper[i % 3], 0) / 3;
}

describe('the pixels', () => {
  it('of a filled polygon add up to its area, wherever it lies', () => {
    const random = seededRandom(9);
    for (let k = 0; k < 10; k++) {
      const [x, y] = [random.between(5, 20), random.between(5, 20)];
      const [a, b] = [random.between(5, 30), random.between(5, 30)];
      const points = [x, y, x + a, y, x + a + 5, y + b, x + 5, y + b];
      const area = inked(pixelsOf([{ kind: 'area', points, tone: '#000000' }], 80, 80));
      expect(Math.abs(area - a * b)).toBeLessThan(0.02 * a * b + 2);
    }
  });

  it('of a stroke add up to length × width and its round ends, at any slant', () => {
    for (const turn of [0, 0.3, 0.785, 1.2, 1.571, 2.5]) {
      const [dx, dy] = [40 * Math.cos(turn), 40 * Math.sin(turn)];
      const drawn = pixelsOf([line([60 - dx, 60 - dy, 60 + dx, 60 + dy], '#000000', 5)], 120, 120);
      const expected = 80 * 5 + (Math.PI * 25) / 4;
      expect(Math.abs(inked(drawn) - expected)).toBeLessThan(0.03 * expected);
    }
  });

  it('of a picture at its own size are the picture, neither turned nor mirrored, and a clear one changes nothing', () => {
    const at = { kind: 'picture', x: 0, y: 0, width: 4, height: 3 } as const;
    expect([...pixelsOf([{ ...at, picture }], 4, 3)]).toEqual([...picture.data].filter((_, i) => i % 4 !== 3));
    const clear = { ...picture, data: picture.data.map((value, i) => (i % 4 === 3 ? 0 : value)) };
    expect(pixelsOf([{ ...at, picture: clear }], 4, 3)).toEqual(pixelsOf([], 4, 3));
  });

  it('of letters are those of the typeface: every one that figures use, and accents differ from none', () => {
    const drawn = (text: string): Uint8Array => pixelsOf([words(4, 24, text, 20)], 40, 32);
    const none = drawn('\ue000');
    for (const letter of 'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.,:;+−±×°%²³/()=·–’éčłßþ') {
      expect(inked(drawn(letter)), letter).toBeGreaterThan(2);
      expect(drawn(letter), letter).not.toEqual(none);
    }
    expect(drawn('é')).not.toEqual(drawn('e'));
    expect(drawn('č')).not.toEqual(drawn('c'));
  });

  it('of words end, lie in the middle, or begin where they are put', () => {
    const columns = (align: 'start' | 'middle' | 'end'): number[] => {
      const pixels = pixelsOf([words(50, 24, 'matrix', 12, '#000000', { align })], 100, 32);
      return Array.from({ length: 100 }, (_, x) => x).filter((x) =>
        Array.from({ length: 32 }, (_, y) => pixels[3 * (100 * y + x)]).some((value) => value < 100),
      );
    };
    expect(columns('start')[0]).toBeGreaterThanOrEqual(49);
    expect(columns('end').at(-1)).toBeLessThanOrEqual(50);
    const middle = columns('middle');
    expect(Math.abs((middle[0] + (middle.at(-1) ?? 0)) / 2 - 50)).toBeLessThan(2);
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
    const png = decode(toPng(drawing, rasterise, 240, 'Depth −0.2 mm “as found”'));
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

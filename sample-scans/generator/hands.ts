import * as opentype from 'opentype.js/dist/opentype.mjs';

/** The lettering a hand works from: open-licensed typefaces whose capitals come near medieval and classical ones. */
export const handNames = ['metamorphous', 'uncial-antiqua', 'almendra-sc', 'cinzel', 'forum', 'medievalsharp'] as const;
export type HandName = (typeof handNames)[number];

/** One letter, 1 high from the baseline to the top of an I. */
export interface LetterForm {
  /** Closed contours, x, y pairs, y upward. */
  readonly contours: readonly Float64Array[];
  readonly left: number;
  readonly right: number;
}

export interface Hand {
  readonly name: HandName;
  letter(char: string): LetterForm;
}

export type HandOf = (name: HandName) => Hand;

/** Reads the bytes of a hand's WOFF file. */
export type ReadHand = (name: HandName) => Uint8Array;

/** Parses each typeface once, on first use. */
export function loadHands(read: ReadHand): HandOf {
  const loaded = new Map<HandName, Hand>();
  return (name) => {
    let hand = loaded.get(name);
    if (!hand) {
      hand = openHand(name, read(name));
      loaded.set(name, hand);
    }
    return hand;
  };
}

function openHand(name: HandName, bytes: Uint8Array): Hand {
  const buffer = new ArrayBuffer(bytes.length);
  new Uint8Array(buffer).set(bytes);
  const font = opentype.parse(buffer);
  const capital = Math.max(...flatten(font.charToGlyph('I'), 1).map((c) => extent(c, 1)[1]));
  const forms = new Map<string, LetterForm>();
  return {
    name,
    letter(char) {
      let form = forms.get(char);
      if (!form) {
        form = letterForm(flatten(font.charToGlyph(char), 1 / capital));
        forms.set(char, form);
      }
      return form;
    },
  };
}

function letterForm(contours: readonly Float64Array[]): LetterForm {
  let left = Number.POSITIVE_INFINITY;
  let right = Number.NEGATIVE_INFINITY;
  for (const contour of contours) {
    const [low, high] = extent(contour, 0);
    left = Math.min(left, low);
    right = Math.max(right, high);
  }
  return { contours, left, right };
}

function extent(contour: Float64Array, axis: 0 | 1): readonly [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = axis; i < contour.length; i += 2) {
    low = Math.min(low, contour[i]);
    high = Math.max(high, contour[i]);
  }
  return [low, high];
}

/** Outlines as polygons: every curve in four chords, which is 0.01 of a letter's height or better. */
function flatten(glyph: opentype.Glyph, size: number): Float64Array[] {
  const contours: Float64Array[] = [];
  let points: number[] = [];
  const close = (): void => {
    if (points.length >= 6) contours.push(Float64Array.from(points));
    points = [];
  };
  for (const c of glyph.getPath(0, 0, size).commands) {
    if (c.type === 'Z') {
      close();
      continue;
    }
    if (c.type === 'M') close();
    const x0 = points[points.length - 2] ?? c.x;
    const y0 = -(points[points.length - 1] ?? -c.y);
    if (c.type === 'Q' || c.type === 'C')
      for (let k = 1; k < 4; k++) {
        const t = k / 4;
        const s = 1 - t;
        if (c.type === 'Q')
          points.push(s * s * x0 + 2 * s * t * c.x1 + t * t * c.x, -(s * s * y0 + 2 * s * t * c.y1 + t * t * c.y));
        else
          points.push(
            s ** 3 * x0 + 3 * s * s * t * c.x1 + 3 * s * t * t * c.x2 + t ** 3 * c.x,
            -(s ** 3 * y0 + 3 * s * s * t * c.y1 + 3 * s * t * t * c.y2 + t ** 3 * c.y),
          );
      }
    points.push(c.x, -c.y);
  }
  close();
  return contours;
}

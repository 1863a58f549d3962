import type { HeightGrid } from '../../core/geometry/index.ts';
import {
  type CardLanguage,
  type InEveryLanguage,
  inEveryLanguage,
  type LitPicture,
  type Strip,
} from '../../core/read/index.ts';
import { captionWords, pictureWords } from '../../core/report/words/index.ts';
import type { GreyPicture, StripPlaces } from './readingProtocol.ts';

/** A picture with the mask of the relief it was drawn from, as copies that may travel. */
export function drawn(
  grid: HeightGrid,
  { width, height, grey, shown }: LitPicture,
  captions: InEveryLanguage = inEveryLanguage((language) => pictureWords(shown, undefined, language)),
): GreyPicture {
  const caption = captions.en;
  return { width, height, grey: new Uint8ClampedArray(grey), mask: new Uint8Array(grid.mask), caption, captions };
}

/** Where the cells of a strip lie, without its heights. */
export function placesOf({ band, facing, pieces, grid, x, y, upX, upY, roundMm }: Strip): StripPlaces {
  const { width, height, pitch, left, top } = grid;
  return {
    ...{ band, facing, pieces, grid: { width, height, pitch, left, top }, roundMm },
    ...{ x: x.slice(), y: y.slice(), upX: upX.slice(), upY: upY.slice() },
  };
}

/** Column means of the detail's amount between tops and feet, mm. */
export function inkOf({ grid, band }: Strip): Float32Array<ArrayBuffer> {
  const half = (band.lettersInnerMm - band.lettersOuterMm) / 2;
  const from = Math.max(0, Math.round((grid.top - half) / grid.pitch));
  const to = Math.min(grid.height - 1, Math.round((grid.top + half) / grid.pitch));
  const ink = new Float32Array(grid.width);
  for (let c = 0; c < grid.width; c++) {
    let [sum, squares, n] = [0, 0, 0];
    for (let r = from; r <= to; r++) {
      const i = r * grid.width + c;
      if (!grid.mask[i]) continue;
      sum += grid.z[i];
      squares += grid.z[i] ** 2;
      n++;
    }
    if (n > 0) ink[c] = Math.sqrt(Math.max(0, squares / n - (sum / n) ** 2));
  }
  return ink;
}

/** A strip's picture; a matrix was turned over before it was laid out, which the picture itself cannot know. */
export function drawnStrip({ grid, band }: Strip, picture: LitPicture): GreyPicture {
  const way = (language: CardLanguage): string =>
    band.sense === 'intaglio' ? captionWords[language].card.matrixTurned : '';
  const captions = inEveryLanguage((language) => pictureWords(picture.shown, way(language), language));
  return drawn(grid, picture, captions);
}

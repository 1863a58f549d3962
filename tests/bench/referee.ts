import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encode } from 'fast-png';
import type { LitPicture } from '../../src/core/read/index.ts';

/** Tesseract as Debian packages it, put in place if it is not there. Returns what `tesseract --version` says first. */
export function installedReferee(say: (line: string) => void): string {
  if (spawnSync('tesseract', ['--version']).error) {
    say('installing tesseract-ocr');
    execFileSync('apt-get', ['install', '-y', 'tesseract-ocr'], { stdio: 'ignore' });
  }
  return execFileSync('tesseract', ['--version'], { encoding: 'utf8' }).split('\n')[0];
}

/** Rows of a strip that hold its letters. */
export interface LetterRows {
  readonly from: number;
  readonly to: number;
}

const letterPixels = 40;
const borderPixels = 20;

/**
 * What the referee reads on a lit strip: rows of the letters and an eighth more, letters 40 pixels high, the darkest and
 * lightest fiftieth clipped, a white border; one line of text, no word list, capitals and small letters only. `inverted`: light strokes are printed
 * dark. The same for every picture.
 */
export function refereeReads(picture: LitPicture, { from, to }: LetterRows, inverted: boolean): string {
  const folder = mkdtempSync(join(tmpdir(), 'ectype-referee-'));
  try {
    const path = join(folder, 'strip.png');
    writeFileSync(
      path,
      printed(picture, from - (to - from) / 16, to + (to - from) / 16, letterPixels / (to - from), inverted),
    );
    const settings = [
      'load_system_dawg=0',
      'load_freq_dawg=0',
      `tessedit_char_whitelist=${alphabet}${alphabet.toLowerCase()}`,
    ];
    const text = execFileSync(
      'tesseract',
      [path, '-', '--psm', '7', '--oem', '1', ...settings.flatMap((each) => ['-c', each])],
      { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'], env: { ...process.env, OMP_THREAD_LIMIT: '1' } },
    );
    return asLetters(text);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** Letters alone, as they were cut: V for U, I for J, VV for W. */
export const asLetters = (text: string): string =>
  text
    .toUpperCase()
    .replaceAll('W', 'VV')
    .replaceAll('U', 'V')
    .replaceAll('J', 'I')
    .replace(/[^A-Z]/g, '');

function printed(picture: LitPicture, fromRow: number, toRow: number, scale: number, inverted: boolean): Uint8Array {
  const inner = { width: Math.round(picture.width * scale), height: Math.round((toRow - fromRow) * scale) };
  const values = new Float64Array(inner.width * inner.height);
  for (let y = 0; y < inner.height; y++)
    for (let x = 0; x < inner.width; x++)
      values[y * inner.width + x] = meanOver(
        picture,
        x / scale,
        (x + 1) / scale,
        fromRow + y / scale,
        fromRow + (y + 1) / scale,
      );
  const sorted = values.slice().sort();
  const low = sorted[Math.floor(0.02 * sorted.length)];
  const high = sorted[Math.floor(0.98 * sorted.length)];
  const width = inner.width + 2 * borderPixels;
  const height = inner.height + 2 * borderPixels;
  const data = new Uint8Array(width * height).fill(255);
  for (let y = 0; y < inner.height; y++)
    for (let x = 0; x < inner.width; x++) {
      const tone = Math.max(0, Math.min(1, (values[y * inner.width + x] - low) / Math.max(1, high - low)));
      data[(y + borderPixels) * width + x + borderPixels] = Math.round(255 * (inverted ? 1 - tone : tone));
    }
  return encode({ width, height, data, channels: 1 });
}

/** Mean grey of the cells that a pixel touches. */
function meanOver(
  { width, height, grey }: LitPicture,
  left: number,
  right: number,
  top: number,
  bottom: number,
): number {
  let sum = 0;
  let count = 0;
  for (
    let r = Math.max(0, Math.floor(top));
    r < Math.min(height, Math.max(Math.floor(top) + 1, Math.ceil(bottom)));
    r++
  )
    for (let c = Math.floor(left); c < Math.min(width, Math.max(Math.floor(left) + 1, Math.ceil(right))); c++) {
      sum += grey[r * width + c];
      count++;
    }
  return count > 0 ? sum / count : 0;
}

import { type DrawnMark, words } from '../drawing/index.ts';

const captionSize = 7;
const leading = 9;

/** A caption in lines of at most `width` points under y, and the height that they take. */
export function captionMarks(text: string, x: number, y: number, width: number) {
  const lines = wrapped(text, width);
  const marks: DrawnMark[] = lines.map((line, k) => words(x, y + leading * (k + 1), line, captionSize, 'soft'));
  return { marks, height: leading * lines.length };
}

/** Lines of at most so many points, taking a letter for 0.46 of its size on average. */
function wrapped(text: string, width: number): string[] {
  const most = Math.max(24, Math.floor(width / (0.46 * captionSize)));
  const lines = [''];
  for (const word of text.split(' ')) {
    const last = lines[lines.length - 1];
    if (last !== '' && last.length + word.length >= most) lines.push(word);
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`;
  }
  return lines;
}

import { type DrawnMark, words } from '../drawing/index.ts';

const captionSize = 7;
const leading = 9;

/** A caption in lines of at most `width` points under y, and the height that they take. */
export function captionMarks(text: string, x: number, y: number, width: number) {
  const lines = wrapped(text, width);
  const marks: DrawnMark[] = lines.map((line, k) => words(x, y + leading * (k + 1), line, captionSize, 'soft'));
  return { marks, height: leading * lines.length };
}

/** A letter's width on average, as a share of its size. */
export const letterWide = 0.46;

/** Lines of at most so many points. In French a sign of its own stands with the word before it: no line begins with one. */
function wrapped(text: string, width: number): string[] {
  const most = Math.max(24, Math.floor(width / (letterWide * captionSize)));
  const lines = [''];
  for (const word of text.split(/ (?![:;?!»](?: |$))/)) {
    const last = lines[lines.length - 1];
    if (last !== '' && last.length + word.length >= most) lines.push(word);
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`;
  }
  return lines;
}

/** The lower-case words in the first `length` bytes; none where they hold a zero byte, which text never does. */
export function wordsAtStart(bytes: Uint8Array, length: number): string[] {
  const text = textAtStart(bytes, length);
  if (text.includes('\0')) return [];
  return text.toLowerCase().split(/\s+/).filter(Boolean);
}

/** The first `length` bytes as characters, one a byte, without a byte-order mark. */
export function textAtStart(bytes: Uint8Array, length: number): string {
  const from = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  let text = '';
  for (let at = from; at < Math.min(bytes.length, length); at++) text += String.fromCharCode(bytes[at]);
  return text;
}

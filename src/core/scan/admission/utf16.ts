/**
 * The file as UTF-8 where it is text in UTF-16, of either byte order, with or without its mark; else undefined.
 * Without the mark a text is known by its first sixteen characters, all of them ASCII.
 */
export function fromUtf16(bytes: Uint8Array): Uint8Array | undefined {
  const little = byteOrder(bytes);
  if (little === undefined) return undefined;
  const out = new Uint8Array(Math.ceil(bytes.length / 2) * 3);
  const low = little ? 0 : 1;
  let used = 0;
  const put = (byte: number) => {
    out[used++] = byte;
  };
  for (let at = hasMark(bytes) ? 2 : 0; at + 1 < bytes.length; at += 2) {
    let code = bytes[at + low] | (bytes[at + 1 - low] << 8);
    // Two halves make one character beyond the first 65,536.
    if (code >= 0xd800 && code < 0xdc00 && at + 3 < bytes.length) {
      const second = bytes[at + 2 + low] | (bytes[at + 3 - low] << 8);
      if (second >= 0xdc00 && second < 0xe000) {
        code = 0x10000 + ((code - 0xd800) << 10) + (second - 0xdc00);
        at += 2;
      }
    }
    putUtf8(code, put);
  }
  return out.slice(0, used);
}

function putUtf8(code: number, put: (byte: number) => void): void {
  if (code < 0x80) {
    put(code);
    return;
  }
  // The first byte says how many follow; each of those carries six bits.
  const following = code < 0x800 ? 1 : code < 0x10000 ? 2 : 3;
  put([0, 0xc0, 0xe0, 0xf0][following] | (code >> (6 * following)));
  for (let left = following - 1; left >= 0; left--) put(0x80 | ((code >> (6 * left)) & 63));
}

const hasMark = (bytes: Uint8Array): boolean =>
  (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);

/** True for little-endian, false for big-endian, undefined where the bytes are no UTF-16 text. */
function byteOrder(bytes: Uint8Array): boolean | undefined {
  if (hasMark(bytes)) return bytes[0] === 0xff;
  if (bytes.length < 32) return undefined;
  const isText = (first: number): boolean => {
    for (let at = 0; at < 32; at += 2) {
      const byte = bytes[at + first];
      const plain = (byte >= 32 && byte < 127) || byte === 9 || byte === 10 || byte === 13;
      if (!plain || bytes[at + 1 - first] !== 0) return false;
    }
    return true;
  };
  return isText(0) ? true : isText(1) ? false : undefined;
}

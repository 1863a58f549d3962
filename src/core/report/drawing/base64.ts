const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const codes = Uint8Array.from(alphabet, (letter) => letter.charCodeAt(0));
const pad = '='.charCodeAt(0);

/** Bytes that become text in one call, whole threes. */
const atOnce = 6144;

/** RFC 4648 base64 with padding. */
export function base64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let from = 0; from < bytes.length; from += atOnce)
    parts.push(textOf(bytes, from, Math.min(bytes.length, from + atOnce)));
  return parts.join('');
}

function textOf(bytes: Uint8Array, from: number, to: number): string {
  const out = new Uint8Array(4 * Math.ceil((to - from) / 3));
  for (let i = from, k = 0; i < to; i += 3, k += 4) {
    const second = i + 1 < to ? bytes[i + 1] : 0;
    const third = i + 2 < to ? bytes[i + 2] : 0;
    out[k] = codes[bytes[i] >> 2];
    out[k + 1] = codes[((bytes[i] & 3) << 4) | (second >> 4)];
    out[k + 2] = codes[((second & 15) << 2) | (third >> 6)];
    out[k + 3] = codes[third & 63];
  }
  const missing = (3 - ((to - from) % 3)) % 3;
  out.fill(pad, out.length - missing);
  return Reflect.apply(String.fromCharCode, null, out);
}

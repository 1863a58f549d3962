const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** RFC 4648 base64 with padding. */
export function base64(bytes: Uint8Array): string {
  const parts: string[] = [];
  let part = '';
  for (let i = 0; i < bytes.length; i += 3) {
    const three = (bytes[i] << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    part += alphabet[three >> 18] + alphabet[(three >> 12) & 63];
    part += i + 1 < bytes.length ? alphabet[(three >> 6) & 63] : '=';
    part += i + 2 < bytes.length ? alphabet[three & 63] : '=';
    if (part.length > 8192) {
      parts.push(part);
      part = '';
    }
  }
  return parts.join('') + part;
}

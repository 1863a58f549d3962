/** SHA-256 by the browser, in hexadecimal: native and off this thread. */
export async function sha256(bytes: Uint8Array): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Pages without a secure origin have no digest of the browser's; the core's own is plain code. */
export const platformDigest = globalThis.crypto?.subtle ? { sha256 } : {};

import type { RawScan } from './types.ts';

/** Headers are looked at so far, bytes. */
const headerBytes = 8192;

/**
 * True where the file says of itself that it was computed and not scanned: in glTF `"simulated": true` among the asset's
 * extras, in PLY a comment that begins with "simulated". Other formats have no place for it that is looked at.
 */
export function saysSimulated(bytes: Uint8Array, format: RawScan['format']): boolean {
  const head = String.fromCharCode(...bytes.subarray(0, headerBytes));
  if (format === 'ply') return /^comment simulated\b/m.test(head.split('end_header')[0]);
  return format === 'gltf' && /"asset"\s*:\s*\{[^[\]]*"extras"\s*:\s*\{[^{}]*"simulated"\s*:\s*true/.test(head);
}

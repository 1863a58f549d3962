const word = new Uint32Array(1);
const real = new Float32Array(word.buffer);

/**
 * IEEE 754 binary16 bits of a number, rounded to nearest; overflow gives infinity, below 2⁻²⁴ zero.
 * Graphics cards filter this format linearly without an extension, which float32 needs.
 */
export function halfBits(value: number): number {
  real[0] = value;
  const bits = word[0];
  const sign = (bits >>> 16) & 0x8000;
  const exponent = ((bits >>> 23) & 0xff) - 112;
  const fraction = bits & 0x7fffff;
  if (exponent >= 31) return sign | 0x7c00;
  if (exponent <= 0) {
    if (exponent < -10) return sign;
    return sign | (((fraction | 0x800000) >>> (14 - exponent)) + ((fraction >>> (13 - exponent)) & 1));
  }
  // The carry of the rounding may run into the exponent, which is then the right answer.
  return sign | (((exponent << 10) | (fraction >>> 13)) + ((fraction >>> 12) & 1));
}

/** The number of IEEE 754 binary16 bits: (−1)^s 2^(e − 15) (1 + f / 1024), below 2⁻¹⁴ without the leading one. */
export function fromHalf(bits: number): number {
  const sign = bits & 0x8000 ? -1 : 1;
  const exponent = (bits >>> 10) & 0x1f;
  const fraction = bits & 0x3ff;
  if (exponent === 0) return sign * fraction * 2 ** -24;
  return sign * 2 ** (exponent - 15) * (1 + fraction / 1024);
}

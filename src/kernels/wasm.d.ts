/** The bytes of a compiled kernel, put there by src/build/kernels.mjs. */
declare module '*.wasm' {
  const bytes: Uint8Array;
  export default bytes;
}

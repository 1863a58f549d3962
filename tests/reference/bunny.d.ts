/** The package brings no types. */
declare module 'bunny' {
  export const positions: readonly (readonly [number, number, number])[];
  export const cells: readonly (readonly [number, number, number])[];
}

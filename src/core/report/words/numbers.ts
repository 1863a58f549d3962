/** A share, 0 to 1, in whole percent. */
export const percentWords = (share: number): string => `${Math.round(100 * share)} %`;

/** A length in whole micrometres. */
export const micrometres = (mm: number): string => `${Math.round(mm * 1000)} µm`;

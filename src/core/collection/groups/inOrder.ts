/** Names in one order everywhere, whatever the reader's language. */
export const inOrder = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** The files themselves, by scan id. A Blob stays on disk until it is read. */
const files = new Map<string, Blob>();

export const blobOf = (id: string): Blob | undefined => files.get(id);
export const keepBlob = (id: string, file: Blob): void => {
  files.set(id, file);
};

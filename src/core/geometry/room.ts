/** Memory for arrays of so many bytes. */
export type Room = (bytes: number) => ArrayBufferLike;

export const ownRoom: Room = (bytes) => new ArrayBuffer(bytes);

/** Memory that other threads may see. */
export const sharedRoom: Room = (bytes) => new SharedArrayBuffer(bytes);

/** The memory that a kernel exports. */
export interface KernelMemory {
  readonly buffer: ArrayBuffer;
  grow(pages: number): number;
}
export declare const pageBytes = 65536;
/**
 * A new instance of a kernel with a memory of its own, or null where the engine has no WebAssembly or no SIMD, the
 * page's content policy forbids it, or a thread that draws is asked for more than it may compile at once: the plain
 * code is used then.
 */
export declare function instantiate<Exports extends object>(bytes: Uint8Array): Exports | null;

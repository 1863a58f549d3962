/** What is used of the engine's WebAssembly; its types belong to the DOM, which the core does not have. */
interface Engine {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: object };
  readonly Memory: new (size: { initial: number; maximum: number; shared: boolean }) => KernelMemory;
}

/** The memory that a kernel exports. */
export interface KernelMemory {
  readonly buffer: ArrayBuffer;
  grow(pages: number): number;
}

export const pageBytes = 65_536;

const modules = new Map<Uint8Array, object | null>();

const engineHere = (): Engine | undefined => (globalThis as { WebAssembly?: Engine }).WebAssembly;

/** A memory that several threads may see; null where pages are not let have one. */
export function sharedMemory(bytes: number): KernelMemory | null {
  const engine = engineHere();
  if (!engine || typeof SharedArrayBuffer === 'undefined') return null;
  const pages = Math.ceil(bytes / pageBytes);
  return new engine.Memory({ initial: pages, maximum: pages, shared: true });
}

/**
 * A new instance of a kernel with a memory of its own, or the one that is given, or null where the engine has no WebAssembly or no SIMD, the
 * page's content policy forbids it, or a thread that draws is asked for more than it may compile at once: the plain
 * code is used then.
 */
export function instantiate<Exports extends object>(bytes: Uint8Array, memory?: KernelMemory): Exports | null {
  const engine = engineHere();
  if (!engine) return null;
  try {
    const module = modules.get(bytes) ?? (modules.has(bytes) ? null : new engine.Module(bytes));
    modules.set(bytes, module);
    return module && (new engine.Instance(module, memory ? { env: { memory } } : {}).exports as Exports);
  } catch {
    if (!modules.has(bytes)) modules.set(bytes, null);
    return null;
  }
}

/** Grows a memory to so many bytes where it is smaller; false where there is no more. */
export function hasRoom(memory: KernelMemory, end: number): boolean {
  try {
    const pages = Math.ceil(end / pageBytes) - memory.buffer.byteLength / pageBytes;
    if (pages > 0) memory.grow(pages);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/** A kernel that is kept from use to use; one that had to grow beyond `mostKept` bytes is let go after its use. */
export interface KeptKernel<Exports> {
  readonly bytes: Uint8Array;
  readonly mostKept: number;
  kernel: Exports | null;
}

/** The kernel with room up to `end` bytes; null where `instantiate` gives none, or where there is no memory for it. */
export function kernelWithRoom<Exports extends { readonly memory: KernelMemory }>(
  kept: KeptKernel<Exports>,
  end: number,
): Exports | null {
  const kernel = kept.kernel ?? instantiate<Exports>(kept.bytes);
  if (!kernel || !hasRoom(kernel.memory, end)) return null;
  kept.kernel = kernel.memory.buffer.byteLength > kept.mostKept ? null : kernel;
  return kernel;
}

/** The buffers of all typed arrays in a plain object, each once: what can be moved to another thread. */
export function arraysIn(value: unknown, found = new Set<ArrayBuffer>()): ArrayBuffer[] {
  if (ArrayBuffer.isView(value)) {
    if (value.buffer instanceof ArrayBuffer) found.add(value.buffer);
  } else if (value !== null && typeof value === 'object') {
    for (const one of Object.values(value)) arraysIn(one, found);
  }
  return [...found];
}

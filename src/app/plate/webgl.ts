let known: boolean | null = null;

/** Whether the browser can draw the plate at all. Asked once. */
export function hasWebGl(): boolean {
  if (known === null) {
    const context = document.createElement('canvas').getContext('webgl2');
    known = context !== null;
    context?.getExtension('WEBGL_lose_context')?.loseContext();
  }
  return known;
}

let drawn: HTMLCanvasElement | null = null;

/** The canvas of the plate: figures are taken from it. */
export const setCanvas = (canvas: HTMLCanvasElement): void => {
  drawn = canvas;
};
export const canvasNow = (): HTMLCanvasElement | null => drawn;

import { parentPort } from 'node:worker_threads';
import { type Drawing, line, toPng, words } from '../core/report/drawing/index.ts';
import { quickly } from './deflate.ts';
import type { PaintedMessage, PaintOrder } from './painter.ts';
import { rasteriser } from './rasterise.ts';

/** A little of all that figures are made of, so that the fonts are read and the painter compiled before the first of them comes. */
const trial: Drawing = {
  width: 40,
  height: 40,
  title: '',
  marks: [
    line([1, 1, 20, 30, 39, 5], 'ink', 1.4, { dash: [4, 2] }),
    { kind: 'area', points: [5, 5, 30, 8, 20, 35], tone: 'soft', opacity: 0.3 },
    words(2, 20, '1 mm', 10, 'ink', { rim: 'paper' }),
  ],
};

const ready = rasteriser().then((rasterise) => {
  toPng(trial, rasterise, 40, '', quickly);
  return rasterise;
});

parentPort?.on('message', async ({ id, drawing, across, caption }: PaintOrder) => {
  const answer = (message: PaintedMessage): void => parentPort?.postMessage(message);
  try {
    answer({ id, png: toPng(drawing, await ready, across, caption, quickly) });
  } catch (error) {
    answer({ id, failed: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
});

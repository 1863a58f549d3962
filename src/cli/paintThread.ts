import { parentPort } from 'node:worker_threads';
import { type Drawing, line, toPng, words } from '../core/report/drawing/index.ts';
import { quickly } from './deflate.ts';
import type { PaintedMessage, PaintOrder } from './painter.ts';
import { rasteriser } from './rasterise.ts';

/** What figures are made of, so that it is compiled before the first of them comes. */
const trial: Drawing = {
  width: 720,
  height: 720,
  title: '',
  marks: [
    line([10, 10, 300, 500, 600, 20], 'ink', 1.4, { dash: [4, 2] }),
    line(
      Array.from({ length: 200 }, (_, k) => 360 + (40 + k) * (k % 2 === 0 ? Math.cos(k) : Math.sin(k))),
      'accent',
      0.8,
    ),
    { kind: 'area', points: [100, 100, 600, 150, 500, 700], tone: 'soft', opacity: 0.3 },
    ...Array.from({ length: 20 }, (_, k) => words(20 + 30 * k, 30 * k, `${k} mm`, 10, 'ink', { rim: 'paper' })),
  ],
};

const ready = rasteriser().then((rasterise) => {
  toPng(trial, rasterise, 800, '', quickly);
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

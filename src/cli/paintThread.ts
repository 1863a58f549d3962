import { parentPort } from 'node:worker_threads';
import { type Drawing, line, toPng, words } from '../core/report/drawing/index.ts';
import type { FigureToPaint } from '../core/report/index.ts';
import { failure } from '../workers/node/failure.ts';
import type { Answer, Order } from '../workers/node/protocol.ts';
import { quickly } from './deflate.ts';
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

parentPort?.on('message', async ({ id, asked: { drawing, across, caption } }: Order<FigureToPaint>) => {
  const answer = (message: Answer): void => parentPort?.postMessage(message);
  try {
    answer({ id, kind: 'done', result: toPng(drawing, await ready, across, caption, quickly) });
  } catch (error) {
    answer(failure(id, error));
  }
});

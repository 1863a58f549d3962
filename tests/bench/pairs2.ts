import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makePair, recipeAt } from '../populations/index.ts';

/**
 * Writes pairs `from` to `from + count − 1` of the second population's factorial design into `folder`: NNNN-reference.ply,
 * NNNN-subject.ply, NNNN-truth.json (the recipe and the truth; the conditions of the subject's vertices as a list of codes).
 */
export function writePairs(from: number, count: number, folder: string, say: (line: string) => void): void {
  mkdirSync(folder, { recursive: true });
  for (let index = from; index < from + count; index++) {
    const recipe = recipeAt(index);
    const started = performance.now();
    const { reference, subject, truth } = makePair(index, recipe);
    const seconds = (performance.now() - started) / 1000;
    const name = join(folder, String(index).padStart(4, '0'));
    writeFileSync(`${name}-reference.ply`, reference.bytes);
    writeFileSync(`${name}-subject.ply`, subject.bytes);
    const conditionPerVertex = Array.from(subject.conditionPerVertex);
    writeFileSync(`${name}-truth.json`, JSON.stringify({ index, recipe, truth, conditionPerVertex }));
    const d = truth.displacementUm === null ? '' : ` ${truth.displacementUm.toFixed(0)} µm`;
    const vertices = `${reference.positions.length / 3} + ${subject.positions.length / 3} vertices`;
    say(`${index} ${truth.question} ${truth.relation}${d}, ${vertices}, ${seconds.toFixed(2)} s`);
  }
}

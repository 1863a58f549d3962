import { appendFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { populations } from './populations.ts';
import { speedRows } from './speed.ts';
import { tableOf } from './table.ts';

/**
 * `npm run bench [-- SAME DIFFERENT]`: the long populations and the speed, printed and appended to tests/bench/results.md.
 */
const [same = 200, different = 100] = process.argv.slice(2).map(Number);
const say = (line: string): void => void process.stderr.write(`${line}\n`);
const { rows, worst } = await populations(same, different, say);
const text = [
  `## ${new Date().toISOString().slice(0, 16).replace('T', ' ')}, ${same} pairs of one matrix, ${different} of different ones`,
  '',
  `Node ${process.versions.node}, ${cpus().length} × ${cpus()[0]?.model.trim()}. Simulated pairs, 30,000 vertices a scan.`,
  '',
  tableOf([...rows, ...speedRows()]),
  '',
  'The ten worst fits:',
  '',
  ...worst.map((line) => `- ${line}`),
  '',
].join('\n');
process.stdout.write(`${text}\n`);
appendFileSync('tests/bench/results.md', `\n${text}`);

import { appendFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { populations } from './populations.ts';
import { speedRows } from './speed.ts';
import { tableOf } from './table.ts';

/**
 * `npm run bench [-- SAME DIFFERENT]`: the long populations and the speed, printed and appended to tests/bench/results.md.
 * `npm run bench -- reading [SEALS]`: legends of rubbed seals.
 * `npm run bench -- surfaces [PAIRS]`: marks, wear and state against the truth.
 */
const [what, ...rest] = process.argv.slice(2);
if (what === 'reading') await (await import('./reading.ts')).reading(Number(rest[0] ?? 100));
else if (what === 'surfaces') await surfaces(Number(rest[0] ?? 60));
else await pairs(Number(what ?? 200), Number(rest[0] ?? 100));

async function pairs(same: number, different: number): Promise<void> {
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
}

async function surfaces(count: number): Promise<void> {
  const { surfaceRows } = await import('./surfaces/rows.ts');
  const { rows, worst } = await surfaceRows(count, (line) => void process.stderr.write(`${line}\n`));
  const text = [
    `## ${new Date().toISOString().slice(0, 16).replace('T', ' ')}, marks and wear, ${count} pairs`,
    '',
    `Node ${process.versions.node}. Simulated pairs, 30,000 to 60,000 vertices a scan.`,
    '',
    tableOf(rows),
    '',
    'What was missed, misread or made up:',
    '',
    ...worst.map((line) => `- ${line}`),
    '',
  ].join('\n');
  process.stdout.write(`${text}\n`);
  appendFileSync('tests/bench/results.md', `\n${text}`);
}

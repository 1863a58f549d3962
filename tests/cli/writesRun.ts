import { planOutputs } from '../../src/cli/output/outputs.ts';

/** `node writesRun.js FOLDER N`: the writer of every verb, with a run that took no time to compute. */
const [folder, n] = process.argv.slice(2);
const rows = Array.from({ length: 2000 }, (_, k) => `${k},${k * Number(n)}\r\n`).join('');
const outputs = planOutputs({ folder });
outputs.run(
  new Map([
    ['record.json', `${JSON.stringify({ n, rows: rows.length })}\n`],
    ...Array.from({ length: 8 }, (_, k) => [`table-${k}.csv`, `a,b\r\n${rows}`] as const),
    ...Array.from(
      { length: 4 },
      (_, k) => [`figure-${k}.svg`, `<svg xmlns="http://www.w3.org/2000/svg"><title>${k}</title></svg>\n`] as const,
    ),
  ]),
);
await outputs.write();

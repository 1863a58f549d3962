import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { chanceOf, type Fit, fitSearched, searchFaces } from '../../src/core/fit/index.ts';
import { type PairEvidence, pairEvidence } from '../../src/core/judge/gates.ts';
import { type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';

/** One pair of breech faces: which slides, and what the evidence says. */
export interface BreechRow {
  readonly a: string;
  readonly b: string;
  readonly slides: readonly [string, string];
  readonly same: boolean;
  readonly found: boolean;
  readonly significance: number;
  readonly correlation: number;
  readonly log10P: number;
  readonly mirror: number;
  readonly finding: PairEvidence['finding'];
  readonly score: number | null;
  readonly interval: readonly [number, number] | null;
  readonly gates: PairEvidence['gates'];
}

/**
 * `npm run bench -- breech FOLDER OUT`: all pairs of the breech faces of the test data (source in their README), search, fit
 * where something may agree, and evidence; one JSON line each and a table.
 */
export async function breech(folder: string, out: string, say: (line: string) => void): Promise<void> {
  const { slides } = JSON.parse(readFileSync(`${folder}/truth.json`, 'utf8')) as { slides: Record<string, string[]> };
  const scans: { name: string; slide: string; scan: PreparedScan }[] = [];
  for (const [slide, cases] of Object.entries(slides))
    for (const name of cases) {
      const bytes = new Uint8Array(readFileSync(`${folder}/Fadul_${name}.x3p`));
      scans.push({ name, slide, scan: await prepareScan({ name: `${name}.x3p`, bytes, sha256: () => '' }) });
    }
  mkdirSync(out, { recursive: true });
  const rows: BreechRow[] = [];
  for (let i = 0; i < scans.length; i++) {
    for (let j = i + 1; j < scans.length; j++) rows.push(rowOf(scans[i], scans[j]));
    writeFileSync(`${out}/breech.jsonl`, rows.map((row) => JSON.stringify(row)).join('\n'));
    say(`${i + 1} of ${scans.length}: ${rows.length} pairs`);
  }
  say(tableOf(rows));
}

function rowOf(x: { name: string; slide: string; scan: PreparedScan }, y: typeof x): BreechRow {
  const [reference, subject] = [x.scan, y.scan].map(({ scan, face }) => ({ mesh: scan.mesh, face }));
  const searched = searchFaces(reference.face, subject.face);
  const chance = chanceOf(searched.best.significance, searched.none.wrongSign, searched.none.mirror);
  // Where chance does as well, the surfaces need not be fitted: the fit says the same.
  const fit: Fit =
    chance.log10P <= -4
      ? fitSearched(reference, subject, searched)
      : ({ found: false, significance: searched.best.significance, score: searched.best.correlation, chance } as Fit);
  const evidence = pairEvidence(reference.face, subject.face, fit);
  return {
    a: x.name,
    b: y.name,
    slides: [x.slide, y.slide],
    same: x.slide === y.slide,
    found: fit.found,
    significance: fit.significance,
    correlation: fit.score,
    log10P: fit.chance.log10P,
    mirror: fit.chance.mirror,
    finding: evidence.finding,
    score: evidence.weighed?.score ?? null,
    interval: evidence.weighed?.interval ?? null,
    gates: evidence.gates,
  };
}

/** Findings by truth, and the area under the curve of the significance over the pair's own chance. */
export function tableOf(rows: readonly BreechRow[]): string {
  const lines = [true, false].map((same) => {
    const list = rows.filter((row) => row.same === same);
    const count = (finding: string): number => list.filter((row) => row.finding === finding).length;
    const names = ['supported', 'undecided', 'against', 'otherDesign'] as const;
    return `${same ? 'same tool' : 'different'}: ${list.length}; ${names.map((name) => `${name} ${count(name)}`).join(', ')}; fitted ${list.filter((row) => row.found).length}`;
  });
  return [...lines, `area under the curve: ${auc(rows).toFixed(5)}`].join('\n');
}

function auc(rows: readonly BreechRow[]): number {
  const of = (row: BreechRow): number => -row.log10P + (row.score ?? 0) * 1e-3;
  const same = rows.filter((row) => row.same).map(of);
  const others = rows.filter((row) => !row.same).map(of);
  let above = 0;
  for (const a of same) for (const b of others) above += a > b ? 1 : a === b ? 0.5 : 0;
  return above / (same.length * others.length);
}

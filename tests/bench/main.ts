import { appendFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { populations } from './populations.ts';
import { speed, speedRows, speedWarm } from './speed.ts';
import { tableOf } from './table.ts';

/**
 * `npm run bench [-- SAME DIFFERENT]`: the long populations and the speed, printed and appended to tests/bench/results.md.
 * `npm run bench -- reading [SEALS]`: legends of rubbed seals.
 * `npm run bench -- bands [FROM] [COUNT]`: legend bands of faces of the second population against where their letters lie (docs/read.md).
 * `npm run bench -- rubbed-bands FROM COUNT`: the same of rubbed seals of the first.
 * `npm run bench -- band-rows`: what the choice of a legend's ring is learned from, made anew; then `band-choice`: the coefficients learned from it.
 * `npm run bench -- band-pictures FOLDER`: bands before and after, for docs/read.md.
 * `npm run bench -- surfaces [PAIRS] [SEED] [fine]`: marks, wear, state and wear labels against the truth, first generator; `fine`: scans on which marks are two cells wide.
 * `npm run bench -- surfaces2 [COUNT] [SEED] [fine]`: marks, states and wear labels of the second (docs/condition.md).
 * `npm run bench -- descent [N] [SEED] [first|second|both] [independent]`: casts of broken impressions and independent impressions, or these alone, by one generator or each (docs/condition.md).
 * `npm run bench -- change [N] [SEED]`: one object scanned on two dates, what was found of what happened (docs/change.md).
 * `npm run bench -- saved [N]`: damaged saved comparisons and sessions in the built app, in a real browser.
 * `npm run bench -- large [VERTICES]`: a pair of five million triangles a scan in the built app: time, memory, lamp.
 * `npm run bench -- app-pictures [FOLDER]`: the pictures of README and docs/app.md, drawn anew from the built app.
 * `npm run bench -- acts [LOAD] [ROUNDS]`: how long the built app takes to answer each act beside so many busy processes.
 * `npm run bench -- speed [large]`: three sizes of scans (and five million vertices), cold and warm: time, memory, steps, as a multiple of fixed work.
 * `npm run bench -- unchanged record CLI.js FOLDER`, then `unchanged compare BEFORE AFTER`: whether a change changed an answer.
 * `npm run bench -- pairs2 FROM COUNT FOLDER`: pairs of the second population as files (docs/populations.md).
 * `npm run bench -- image-bounds FROM COUNT first|second`: the image found of each scan against what was engraved or printed (docs/face.md).
 * `npm run bench -- coverage [FROM] [COUNT]`: how often the truth is within the printed uncertainty of the pose (docs/fit.md).
 * `npm run bench -- difference-coverage FROM COUNT`: how often the true difference lies within the level of detection (docs/compare.md).
 * `npm run bench -- rows`: the rates of docs/judge.md, from the committed rows of pairs that were scored once.
 * `npm run bench -- scored FROM COUNT FILE`: recipes of the second population scored once, a line each (docs/populations.md).
 * `npm run bench -- scored1 FROM COUNT FILE`: the same of the first (docs/populations.md).
 * `npm run bench -- laws FROM COUNT FILE [grids]`: pairs of one matrix with one accident more each, exchanged, scanned twice, on other grids, in halves (docs/judge.md).
 * `npm run bench -- breech FOLDER OUT`: all pairs of the breech faces of the test data, search and evidence; ten minutes.
 * `npm run bench -- coins FOLDER [SEED]`: two real coins of the test data, and casts of each with accidents (docs/judge.md).
 * `npm run bench -- collection [N] [SEED]`: search and groups of N simulated collections (docs/collection.md).
 * `npm run bench -- collection-copies [N] [SEED]`: groups of N matrices beside a careful copy of each, every pair verified (docs/collection.md).
 * `npm run bench -- collection-growth [SIZES] [SEED] [SURFACES] [CELLS]`: collections of these sizes (125,250), faces so many cells across (170), searched, verified and grouped through the store (docs/collection.md).
 * `npm run bench -- collection-tried [N] [SEED] [STEP]`: forms of the index against each other, every STEP-th face searched for.
 * `npm run bench -- fuzz [N] [SEED]`: N damaged files through the one door, every format.
 * `npm run bench -- mutants [N] [SEED]`: the named mutants and N drawn ones: which of them the tests see (docs/testing.md).
 * `npm run bench -- app-kill [COUNT] [SEED]`, `app-full [SIZES]`: saving in the app, the browser killed or its room used up.
 * `npm run bench -- app-orders FOLDER [NAMED]`: pairs let go in the app in both orders, whether one history is told.
 * `npm run bench -- collection-speed [SEALS]`: a collection by one worker, by two, and one object more, CPU seconds.
 * `npm run bench -- collection-kill [COUNT] [sqlite|postgres] [SEED]`: `ectype add` killed at random moments and gone on with, against an uninterrupted run.
 * `npm run bench -- kill [COUNT]`, `disk-full [SIZES]`, `serve-hostile [REQUESTS]`: what goes out, and the server.
 */
const [what, ...rest] = process.argv.slice(2);
const progress = (line: string): void => void process.stderr.write(`${line}\n`);
const print = (line: string): void => void process.stdout.write(`${line}\n`);
if (what === 'reading') await (await import('./reading.ts')).reading(Number(rest[0] ?? 100));
else if (what === 'bands') await (await import('./bands.ts')).bands(Number(rest[0] ?? 30_000), Number(rest[1] ?? 30));
else if (what === 'rubbed-bands')
  await (await import('./rubbedBands.ts')).rubbedBands(Number(rest[0]), Number(rest[1]));
else if (what === 'band-rows') await (await import('./bandRows/make.ts')).bandRows();
else if (what === 'band-pictures')
  await (await import('./bandRows/pictures.ts')).bandPictures(rest[0] ?? 'docs/pictures');
else if (what === 'app-pictures') await (await import('./appPictures.ts')).appPictures(rest[0] ?? 'docs/pictures');
else if (what === 'band-choice') (await import('./bandRows/learn.ts')).bandChoice();
else if (what === 'fuzz') await (await import('./fuzz/fuzz.ts')).fuzz(Number(rest[0] ?? 100_000), Number(rest[1] ?? 1));
else if (what === 'fuzz-trials')
  await (await import('./fuzz/child.ts')).runTrials(Number(rest[0]), Number(rest[1]), Number(rest[2]));
else if (what === 'breech') await breech(rest[0], rest[1] ?? 'dist/breech');
else if (what === 'coins') await coins(rest[0], Number(rest[1] ?? 1));
else if (what === 'pairs2') await pairs2(Number(rest[0] ?? 0), Number(rest[1] ?? 12), rest[2] ?? 'dist/pairs2');
else if (what === 'scored')
  await (await import('./evidence2/scored.ts')).scored(Number(rest[0]), Number(rest[1]), rest[2], print);
else if (what === 'scored1')
  await (await import('./evidence2/scored.ts')).scored(
    Number(rest[0]),
    Number(rest[1]),
    rest[2],
    print,
    (await import('./evidence2/firstPair.ts')).firstPair,
  );
else if (what === 'laws')
  await (await import('./evidence2/laws.ts')).laws(
    Number(rest[0]),
    Number(rest[1]),
    rest[2],
    print,
    rest[3] === 'grids' ? 'grids' : 'all',
  );
else if (what === 'collection')
  (await import('./collection/collection.ts')).collection(
    Number(rest[0] ?? 20),
    Number(rest[1] ?? 1),
    [10_000, 100_000, 1_000_000],
  );
else if (what === 'collection-copies')
  (await import('./collection/copies.ts')).collectionCopies(Number(rest[0] ?? 16), Number(rest[1] ?? 7201));
else if (what === 'collection-growth')
  await (await import('./collection/growth.ts')).collectionGrowth(
    (rest[0] ?? '125,250').split(',').map(Number),
    Number(rest[1] ?? 7401),
    Number(rest[2] ?? 1),
    rest[3] === undefined ? undefined : Number(rest[3]),
  );
else if (what === 'collection-tried')
  (await import('./collection/collection.ts')).collectionTried(
    Number(rest[0] ?? 4),
    Number(rest[1] ?? 1),
    Number(rest[2] ?? 5),
  );
else if (what === 'large') await (await import('./largePair.ts')).largePair(Number(rest[0] ?? 2_540_000));
else if (what === 'acts') await (await import('./acts.ts')).answers(Number(rest[0] ?? 4), Number(rest[1] ?? 5));
else if (what === 'speed') speed(rest[0] === 'large');
else if (what === 'speed-warm') await speedWarm(rest[0], rest[1], Number(rest[2] ?? 7));
else if (what === 'unchanged') (await import('./unchanged.ts')).unchanged(rest);
else if (what === 'kill') await (await import('./doors/kill.ts')).kill(Number(rest[0] ?? 200));
else if (what === 'collection-speed')
  await (await import('./collectionSpeed.ts')).collectionSpeed(Number(rest[0] ?? 4));
else if (what === 'collection-kill')
  await (await import('./doors/collectionKill.ts')).collectionKill(
    Number(rest[0] ?? 200),
    rest[1] === 'postgres' ? 'postgres' : 'sqlite',
    Number(rest[2] ?? 2611),
  );
else if (what === 'disk-full') (await import('./doors/diskFull.ts')).diskFull(Number(rest[0] ?? 50));
else if (what === 'app-kill')
  await (await import('./doors/appKill.ts')).appKill(Number(rest[0] ?? 200), Number(rest[1] ?? 311));
else if (what === 'app-full') await (await import('./doors/appFull.ts')).appFull(Number(rest[0] ?? 50));
else if (what === 'app-orders') await (await import('./appOrders.ts')).appOrders(rest[0], rest[1]);
else if (what === 'serve-hostile')
  await (await import('./doors/serveHostile.ts')).serveHostile(Number(rest[0] ?? 10_000));
else if (what === 'mutants')
  await (await import('./mutants/run.ts')).mutants(
    Number(rest[0] ?? 300),
    Number(rest[1] ?? 1),
    rest[2] !== '0',
    rest[3],
  );
else if (what === 'image-sizes')
  await (await import('./imageSizes.ts')).imageSizesTold(Number(rest[0] ?? 4080), Number(rest[1] ?? 160), print);
else if (what === 'image-bounds')
  await (await import('./imageBounds.ts')).imageBounds(Number(rest[0]), Number(rest[1]), rest[2] ?? 'first', print);
else if (what === 'coverage')
  await (await import('./coverage.ts')).coverage(Number(rest[0] ?? 4080), Number(rest[1] ?? 160), print);
else if (what === 'difference-coverage')
  await (await import('./differenceCoverage.ts')).differenceCoverage(
    Number(rest[0] ?? 1),
    Number(rest[1] ?? 20),
    print,
  );
else if (what === 'rows') (await import('./rows/rates.ts')).printRates();
else if (what === 'saved') await (await import('./savedInBrowser.ts')).savedInBrowser(Number(rest[0] ?? 200));
else if (what === 'change') await change(Number(rest[0] ?? 12), Number(rest[1] ?? 1));
else if (what === 'surfaces') await surfaces(Number(rest[0] ?? 60), Number(rest[1] ?? 73_000), rest[2] === 'fine');
else if (what === 'descent')
  await descent(Number(rest[0] ?? 30), Number(rest[1] ?? 98_500), rest[2], rest[3] === 'independent');
else if (what === 'surfaces2') await surfaces2(Number(rest[0] ?? 24), Number(rest[1] ?? 91_000), rest[2] === 'fine');
else await pairs(Number(what ?? 200), Number(rest[0] ?? 100));

/** A dated chapter, printed and added to tests/bench/results.md. */
function keep(title: string, ...lines: readonly string[]): void {
  const text = [`## ${new Date().toISOString().slice(0, 16).replace('T', ' ')}, ${title}`, '', ...lines, ''].join('\n');
  process.stdout.write(`${text}\n`);
  appendFileSync('tests/bench/results.md', `\n${text}`);
}

async function pairs(same: number, different: number): Promise<void> {
  const { rows, worst } = await populations(same, different, progress);
  keep(
    `${same} pairs of one matrix, ${different} of different ones`,
    `Node ${process.versions.node}, ${cpus().length} × ${cpus()[0]?.model.trim()}. Simulated pairs, 30,000 vertices a scan.`,
    '',
    tableOf([...rows, ...speedRows()]),
    '',
    'The ten worst fits:',
    '',
    ...worst.map((line) => `- ${line}`),
  );
}

async function change(count: number, firstSeed: number): Promise<void> {
  const { changeRows } = await import('./change/rows.ts');
  const { rows } = await changeRows(count, firstSeed, progress);
  keep(`one object on two dates, ${count} objects, seeds ${firstSeed} on`, tableOf(rows));
}

async function pairs2(from: number, count: number, folder: string): Promise<void> {
  const { writePairs } = await import('./pairs2.ts');
  writePairs(from, count, folder, progress);
}

async function surfaces(count: number, firstSeed: number, fine: boolean): Promise<void> {
  const { surfaceRows } = await import('./surfaces/rows.ts');
  const { fineCase } = await import('./surfaces/fineMarks.ts');
  const { rows, worst } = await surfaceRows(count, firstSeed, progress, fine ? fineCase : undefined);
  keep(
    `marks and wear, ${fine ? 'fine scans, ' : ''}${count} pairs, seeds ${firstSeed} on`,
    `Node ${process.versions.node}. Simulated pairs, 30,000 to 60,000 vertices a scan.`,
    '',
    tableOf(rows),
    '',
    'What was missed, misread or made up:',
    '',
    ...worst.map((line) => `- ${line}`),
  );
}

async function surfaces2(count: number, firstSeed: number, fine: boolean): Promise<void> {
  const { secondRows } = await import('./surfaces/secondRows.ts');
  const { fineRecipe } = await import('./surfaces/fineMarks.ts');
  const rows = await secondRows(firstSeed, count, progress, fine ? fineRecipe : undefined);
  keep(
    `marks, states and wear labels, second generator, ${fine ? 'fine scans, ' : ''}${count} pairs, seeds ${firstSeed} on`,
    tableOf(rows),
  );
}

async function descent(count: number, firstSeed: number, only = 'both', independentAlone = false): Promise<void> {
  const { descentRows, generators } = await import('./descent/rows.ts');
  for (const name of Object.keys(generators) as (keyof typeof generators)[]) {
    if (only !== 'both' && only !== name) continue;
    const rows = await descentRows(name, count, firstSeed, progress, independentAlone);
    keep(
      `descent, ${name} generator, ${count} pairs${independentAlone ? ', independent ones alone' : ''}, seeds ${firstSeed} on`,
      tableOf(rows),
    );
  }
}

async function coins(folder: string, firstSeed: number): Promise<void> {
  const { coinRows } = await import('./coins.ts');
  keep(`two coins and casts of each, seeds ${firstSeed} on`, tableOf(await coinRows(folder, firstSeed, progress)));
}

async function breech(folder: string, out: string): Promise<void> {
  const { breech: run } = await import('./breech.ts');
  await run(folder, out, print);
}

import { it } from 'vitest';
import { runPair } from './bench/pairs.ts';
it('x', async () => {
  for (const relation of ['handCopy', 'stockMotif', 'unrelated', 'same'] as const)
    for (let seed = 61; seed <= 64; seed++) {
      const t = process.cpuUsage();
      const { comparison, recipe } = await runPair(seed, relation, { vertices: 14_000, coverage: [1, 1], warpMm: [0.02, 0.05], noiseMm: [0.005, 0.008] }, { whole: false, coverage: 1, wear: 0.1 } as object);
      const u = process.cpuUsage(t);
      console.log(relation, seed, comparison.judgement.finding, comparison.judgement.score?.toFixed(1), comparison.fit.found, recipe.sizeMm.toFixed(0), recipe.shape, ((u.user + u.system) / 1e6).toFixed(1), comparison.judgement.limits.map((l) => l.code).slice(0, 3).join());
    }
}, 300000);

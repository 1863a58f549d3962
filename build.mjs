// Bundles what runs on Node: the command line and, with "bench", the bench. Packages stay in node_modules.
import { build } from 'esbuild';

const bench = process.argv.includes('bench');

await build({
  entryPoints: bench ? ['tests/bench/main.ts'] : ['src/cli/main.ts'],
  outdir: bench ? 'dist/bench' : 'dist/cli',
  bundle: true,
  packages: 'external',
  platform: 'node',
  format: 'esm',
  target: 'node20',
  sourcemap: true,
  logLevel: 'warning',
});

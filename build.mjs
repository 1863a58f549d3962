// Bundles what runs on Node: the command line, a chunk for each verb, and, with "bench", the bench.
import { rmSync } from 'node:fs';
import { build } from 'esbuild';

const bench = process.argv.includes('bench');
const outdir = bench ? 'dist/bench' : 'dist/cli';
// Chunks carry hashes in their names: those of earlier builds would stay for ever.
rmSync(outdir, { recursive: true, force: true });

await build({
  entryPoints: bench
    ? { main: 'tests/bench/main.ts' }
    : { main: 'src/cli/main.ts', readingThread: 'src/workers/node/readingThread.ts' },
  outdir,
  bundle: true,
  splitting: true,
  // Some packages are CommonJS and ask for node: modules themselves.
  banner: {
    js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
  },
  // The bench of the browser brings its own; it is not bundled.
  external: bench ? ['playwright-core', '@sparticuz/chromium', 'vite'] : [],
  platform: 'node',
  format: 'esm',
  target: 'node20',
  minifySyntax: true,
  sourcemap: true,
  logLevel: 'warning',
});

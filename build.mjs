// Bundles the command line for Node; the packages it uses stay in node_modules.
import { build } from 'esbuild';

await build({
  entryPoints: ['src/cli/main.ts'],
  outdir: 'dist/cli',
  bundle: true,
  packages: 'external',
  platform: 'node',
  format: 'esm',
  target: 'node20',
  sourcemap: true,
  logLevel: 'warning',
});

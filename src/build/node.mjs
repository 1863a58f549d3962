// Bundles what runs on Node: "cli" is the command line, a chunk for each verb, "core" the core as a library, "bench" the bench.
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { build } from 'esbuild';
import woff2 from 'wawoff2';
import { defined, root } from './identity.mjs';
import { kernelsForEsbuild } from './kernels.mjs';
import { notices } from './notices.mjs';
import { sqliteBinary, sqliteForEsbuild } from './sqlite.mjs';

/** Typefaces that the command line reads when it runs: of reports, and of the hands that letter the sample scans. */
const fonts = [
  ...['latin-wght-normal', 'latin-wght-italic', 'latin-ext-wght-normal', 'latin-ext-wght-italic'].map(
    (name) => `@fontsource-variable/alegreya/files/alegreya-${name}.woff2`,
  ),
  ...['almendra-sc', 'cinzel', 'forum', 'medievalsharp', 'metamorphous', 'uncial-antiqua'].map(
    (name) => `@fontsource/${name}/files/${name}-latin-400-normal.woff`,
  ),
].map((path) => join(root, 'node_modules', path));

const shared = {
  absWorkingDir: root,
  bundle: true,
  format: 'esm',
  target: 'node20',
  minifySyntax: true,
  sourcemap: true,
  metafile: true,
  logLevel: 'warning',
  define: defined(),
  plugins: [kernelsForEsbuild],
};

const onNode = {
  ...shared,
  splitting: true,
  // Names stay, so that a fault's trace can be read; what is shorter is parsed sooner.
  minifyWhitespace: true,
  // Some packages are CommonJS and ask for node: modules themselves.
  banner: {
    js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
  },
  platform: 'node',
  plugins: [kernelsForEsbuild, sqliteForEsbuild],
  // The client of PostgreSQL asks for it only where it is told to.
  external: ['pg-native'],
};

/** Bundles into a folder that is emptied first: chunks carry hashes in their names and would stay for ever. */
async function into(outdir, options) {
  rmSync(join(root, outdir), { recursive: true, force: true });
  const { metafile } = await build({ ...options, outdir });
  return Object.keys(metafile.inputs).map((path) => join(root, path.replace(/^kernel:/, '')));
}

/** Lays the typefaces beside the bundles; those of figures unpacked too, since resvg would unpack them anew for each. */
async function layFonts(outdir) {
  mkdirSync(outdir);
  for (const font of fonts) {
    cpSync(font, join(outdir, basename(font)));
    if (font.endsWith('.woff2'))
      writeFileSync(join(outdir, `${basename(font, '.woff2')}.ttf`), await woff2.decompress(readFileSync(font)));
  }
}

const notice = (outdir, files) => writeFileSync(join(root, outdir, 'THIRD-PARTY.txt'), notices(files));

/** What is built, by the name that stands on the command line. */
const parts = {
  async cli() {
    const files = await into('dist/cli', {
      ...onNode,
      entryPoints: {
        main: 'src/cli/main.ts',
        secondThread: 'src/workers/node/secondThread.ts',
        verifyThread: 'src/workers/node/verifyThread.ts',
      },
    });
    // By itself: it would share with the others a chunk that reads scans.
    await build({
      ...onNode,
      splitting: false,
      // Node loads its whole network for whoever asks what these are, as resvg does.
      define: { ...onNode.define, Request: 'undefined', Response: 'undefined' },
      entryPoints: ['src/cli/paintThread.ts'],
      outdir: 'dist/cli',
    });
    await layFonts(join(root, 'dist/cli/fonts'));
    cpSync(join(root, 'node_modules/@resvg/resvg-wasm/index_bg.wasm'), join(root, 'dist/cli/resvg.wasm'));
    const sqlite = sqliteBinary();
    cpSync(sqlite.file, join(root, 'dist/cli', sqlite.name));
    notice('dist/cli', [...files, ...fonts, sqlite.file]);
  },
  async core() {
    const files = await into('dist/core', {
      ...shared,
      platform: 'neutral',
      mainFields: ['module', 'main'],
      // Its types stand in those of the records, so it comes along as a package.
      external: ['zod'],
      entryPoints: { index: 'src/core/index.ts' },
    });
    notice('dist/core', files);
  },
  async bench() {
    await into('dist/bench', {
      ...onNode,
      entryPoints: { main: 'tests/bench/main.ts' },
      // The bench of the browser brings its own; it is not bundled.
      external: ['playwright-core', '@sparticuz/chromium', 'vite', 'esbuild', 'pg-native'],
    });
    const rows = join(root, 'tests/bench/rows');
    for (const file of readdirSync(rows).filter((name) => name.endsWith('.csv')))
      cpSync(join(rows, file), join(root, 'dist/bench', file));
  },
};

for (const part of process.argv.slice(2)) await parts[part]();

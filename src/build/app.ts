import { cpSync, existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { defined, root } from './identity.mjs';
import { kernelsForVite } from './kernels.mjs';
import { notices } from './notices.mjs';

// What is built is what is used, whoever has it built: a test runner's environment would bring React's development code.
process.env.NODE_ENV = 'production';

const outDir = join(root, 'dist/app');

/** Nothing but the app's own files, and no code made from text. WebAssembly is the mesh simplifier and the kernels. */
const policy = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' blob: data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
];

/** The page that shows a saved comparison from a stick: everything is inside, and nothing can be fetched. */
const offlinePolicy = [
  "default-src 'none'",
  "script-src 'unsafe-inline' 'wasm-unsafe-eval'",
  "style-src 'unsafe-inline'",
  'font-src data:',
  'img-src blob: data:',
  "base-uri 'none'",
  "form-action 'none'",
];

/** Writes the policy into the built page, so that it holds wherever the files are served from. */
const withPolicy = (lines: readonly string[]): Plugin => ({
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: lines.join('; ') },
      injectTo: 'head-prepend',
    },
  ],
});

/** The demonstration scans lie beside the app. */
const withSamples = (): Plugin => ({
  name: 'samples',
  apply: 'build',
  closeBundle() {
    const samples = join(root, 'sample-scans');
    if (!existsSync(samples)) return;
    cpSync(samples, join(outDir, 'samples'), {
      recursive: true,
      filter: (path) => !path.includes('generator'),
    });
  },
});

/** What the renderer itself puts into every program; the rest are the shaders of materials that the app does not have. */
const keptChunks = ['tonemapping_pars_fragment', 'colorspace_pars_fragment', 'colorspace_fragment'];

/** The plate's one shader includes none of three's: their text stays out of the script (25 kB packed). */
const withoutShaders = (): Plugin => ({
  name: 'without-shaders',
  enforce: 'pre',
  transform: {
    filter: { id: /three[\\/]build[\\/]three\.module\.js$/ },
    handler: (code) => ({
      code: code.replace(/^(?:const|var) (\w+(?:\$\w+)?) = "(?:[^"\\]|\\.)*";$/gm, (whole, name: string) =>
        keptChunks.includes(name) || !whole.includes('\\n') ? whole : `const ${name} = "";`,
      ),
      map: null,
    }),
  },
});

/** What zod's writer of JSON Schemas hands to zod's schemas: the app checks what it reads and writes no schema (10 kB packed, in page and worker). */
const schemaWriter = [
  ...['initializeContext', 'handleUnrepresentable', 'process', 'processSchema', 'extractDefs', 'finalize'],
  ...['createToJSONSchemaMethod', 'createStandardJSONSchemaMethod'],
];

const withoutSchemaWriter = (): Plugin => ({
  name: 'without-schema-writer',
  enforce: 'pre',
  load: {
    filter: { id: /zod[\\/]v4[\\/]core[\\/]to-json-schema\.js$/ },
    handler: () =>
      `const none = () => undefined; export { ${schemaWriter.map((name) => `none as ${name}`).join(', ')} };`,
  },
});

/** Everything that came into a bundle, the workers' and fonts too. */
const bundled = new Set<string>();

const collecting = (): Plugin => ({
  name: 'collecting',
  apply: 'build',
  generateBundle(_options, bundle) {
    for (const file of Object.values(bundle))
      for (const name of file.type === 'chunk' ? file.moduleIds : file.originalFileNames)
        bundled.add(resolve(root, 'src/app', name));
  },
});

/** The licences of what was bundled, beside it. */
const withNotices = (): Plugin => ({
  name: 'notices',
  apply: 'build',
  closeBundle() {
    mkdirSync(outDir, { recursive: true });
    writeFileSync(join(outDir, 'THIRD-PARTY.txt'), notices(bundled));
  },
});

/** One page with script, styles and fonts inside; the saved comparison takes the place of the comment. */
const asOnePage = (): Plugin => ({
  name: 'one-page',
  apply: 'build',
  enforce: 'post',
  generateBundle: {
    order: 'post',
    handler(_options, bundle) {
      const files = Object.values(bundle);
      const html = files.find((file) => file.fileName.endsWith('.html'));
      const script = files.find((file) => file.type === 'chunk' && file.isEntry);
      const style = files.find((file) => file.fileName.endsWith('.css'));
      if (html?.type !== 'asset' || script?.type !== 'chunk') return;
      const code = script.code.replaceAll('</script', '<\\/script');
      const css = style?.type === 'asset' ? String(style.source) : '';
      const page = String(html.source)
        .replace(/<script type="module"[^>]*><\/script>/, '')
        .replace(/<link rel="stylesheet"[^>]*>/, () => `<style>${css}</style>`)
        .replace('</body>', () => `<!--saved--><script type="module">${code}</script></body>`);
      writeFileSync(join(outDir, 'offline.html'), page);
    },
  },
});

/** The offline page has nothing to work out, so it carries no worker. */
const withoutWorker = (): Plugin => ({
  name: 'without-worker',
  enforce: 'pre',
  resolveId: (id) => (id.endsWith('/openWorker.ts') ? join(root, 'src/workers/browser/noWorker.ts') : null),
});

/** The app has its worker to read with; only the offline page reads by itself (59 kB packed). */
const readingInWorker = (): Plugin => ({
  name: 'reading-in-worker',
  enforce: 'pre',
  resolveId: (id) => (id.endsWith('/readingHere.ts') ? join(root, 'src/app/read/state/notHere.ts') : null),
});

/** Notes to bundlers, which nobody reads once the app is built. */
const output = { comments: { annotation: false } };

export default defineConfig(({ mode }) =>
  mode === 'offline'
    ? {
        root: join(root, 'src/app'),
        base: './',
        publicDir: false,
        define: defined(),
        plugins: [
          withoutShaders(),
          withoutSchemaWriter(),
          kernelsForVite(),
          react(),
          withPolicy(offlinePolicy),
          asOnePage(),
          withoutWorker(),
        ],
        build: {
          outDir,
          write: false,
          modulePreload: false,
          target: 'es2023',
          assetsInlineLimit: 10_000_000,
          rolldownOptions: { output: { codeSplitting: false } },
        },
      }
    : {
        root: join(root, 'src/app'),
        base: './',
        publicDir: false,
        define: defined(),
        plugins: [
          withoutShaders(),
          withoutSchemaWriter(),
          readingInWorker(),
          kernelsForVite(),
          react(),
          withPolicy(policy),
          withSamples(),
          collecting(),
          withNotices(),
        ],
        worker: {
          format: 'es',
          plugins: () => [withoutSchemaWriter(), kernelsForVite(), collecting()],
          rolldownOptions: { output },
        },
        build: {
          outDir,
          emptyOutDir: true,
          target: 'es2023',
          modulePreload: { polyfill: false },
          assetsInlineLimit: 0,
          rolldownOptions: {
            output,
            input: {
              index: join(root, 'src/app/index.html'),
              collection: join(root, 'src/app/collection/index.html'),
            },
          },
          // three alone is larger than the usual warning.
          chunkSizeWarningLimit: 1200,
        },
      },
);

import { cpSync, existsSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

const outDir = 'dist/app';

/** Nothing but the app's own files, and no code made from text. WebAssembly is the mesh simplifier. */
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
    if (!existsSync('sample-scans')) return;
    cpSync('sample-scans', `${outDir}/samples`, {
      recursive: true,
      filter: (path) => !path.includes('generator'),
    });
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
      writeFileSync(`${outDir}/offline.html`, page);
    },
  },
});

/** The offline page has nothing to work out, so it carries no worker. */
const withoutWorker = (): Plugin => ({
  name: 'without-worker',
  enforce: 'pre',
  resolveId: (id) => (id.endsWith('/openWorker.ts') ? resolve('src/workers/browser/noWorker.ts') : null),
});

export default defineConfig(({ mode }) =>
  mode === 'offline'
    ? {
        base: './',
        plugins: [react(), withPolicy(offlinePolicy), asOnePage(), withoutWorker()],
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
        base: './',
        plugins: [react(), withPolicy(policy), withSamples()],
        worker: { format: 'es' },
        build: {
          outDir,
          emptyOutDir: true,
          target: 'es2023',
          modulePreload: { polyfill: false },
          assetsInlineLimit: 0,
          // three alone is larger than the usual warning.
          chunkSizeWarningLimit: 1200,
        },
      },
);

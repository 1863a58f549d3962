import { cpSync, existsSync } from 'node:fs';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

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
].join('; ');

/** Writes the policy into the built page, so that it holds wherever the files are served from. */
const withPolicy = (): Plugin => ({
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: policy }, injectTo: 'head-prepend' },
  ],
});

/** The demonstration scans lie beside the app. */
const withSamples = (): Plugin => ({
  name: 'samples',
  apply: 'build',
  closeBundle() {
    if (existsSync('sample-scans')) cpSync('sample-scans', 'dist/app/samples', { recursive: true });
  },
});

export default defineConfig({
  base: './',
  plugins: [react(), withPolicy(), withSamples()],
  worker: { format: 'es' },
  build: {
    outDir: 'dist/app',
    emptyOutDir: true,
    target: 'es2023',
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
  },
});

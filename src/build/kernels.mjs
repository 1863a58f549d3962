// Compiles the kernels (AssemblyScript, src/kernels/assembly) to WebAssembly. What comes out is never committed: the bundlers
// and the test runner ask for `./NAME.wasm` beside src/kernels/NAME.ts and get the bytes, so that they lie in the bundle.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { root } from './identity.mjs';

const folder = join(root, 'src/kernels');
const isKernel = /^\.\/\w+\.wasm$/;
const compiled = new Map();

/** Plain SIMD alone: what relaxed SIMD gives depends on the machine. */
const options = ['-O3', '--noAssert', '--runtime', 'stub', '--enable', 'simd', '--use', 'abort='];

/** `./NAMEShared.wasm` is the kernel NAME in a memory that is handed to it and may be seen by several threads: another type of memory. */
const shared = /Shared$/;
const sharing = ['--importMemory', '--sharedMemory', '--maximumMemory', '65536', '--enable', 'threads'];
const optionsOf = (name) => (shared.test(name) ? [...options, ...sharing] : options);
const sourceOf = (name) => name.replace(shared, '');

/** The bytes of a kernel, compiled once for each text of its source and kept in dist/compiled. */
function kernel(name) {
  if (!compiled.has(name)) compiled.set(name, kept(name));
  return compiled.get(name);
}

async function kept(name) {
  const source = readFileSync(join(folder, 'assembly', `${sourceOf(name)}.ts`), 'utf8');
  const compiler = readFileSync(join(root, 'node_modules/assemblyscript/package.json'), 'utf8');
  const hash = createHash('sha256')
    .update([source, compiler, ...optionsOf(name)].join('\0'))
    .digest('hex');
  const path = join(root, 'dist/compiled', `${name}-${hash.slice(0, 16)}.wasm`);
  if (existsSync(path)) return readFileSync(path);
  const bytes = await compile(name, source);
  mkdirSync(join(root, 'dist/compiled'), { recursive: true });
  // Renamed into place: several processes may compile at once.
  writeFileSync(`${path}.${process.pid}`, bytes);
  renameSync(`${path}.${process.pid}`, path);
  return bytes;
}

async function compile(name, source) {
  const { main } = await import('assemblyscript/asc');
  let bytes;
  const { error, stderr } = await main([`${name}.ts`, '--outFile', `${name}.wasm`, ...optionsOf(name)], {
    readFile: (path) => (path === `${name}.ts` ? source : null),
    writeFile: (_path, contents) => {
      bytes = contents;
    },
    listFiles: () => [],
  });
  if (error) throw new Error(`${error.message}\n${stderr.toString()}`);
  return bytes;
}

/** For esbuild. */
export const kernelsForEsbuild = {
  name: 'kernels',
  setup(build) {
    build.onResolve({ filter: isKernel }, ({ path, resolveDir }) => ({
      path: join(resolveDir, path),
      namespace: 'kernel',
    }));
    build.onLoad({ filter: /./, namespace: 'kernel' }, async ({ path }) => ({
      contents: await kernel(basename(path, '.wasm')),
      loader: 'binary',
    }));
  },
};

/** For Vite and Vitest. Pages have no memory that threads share, so they get no kernel for it. */
export function kernelsForVite() {
  let forPages = false;
  return {
    name: 'kernels',
    enforce: 'pre',
    configResolved({ command }) {
      forPages = command === 'build';
    },
    resolveId: (id, importer) =>
      isKernel.test(id) && importer?.includes('/kernels/') ? `\0kernel:${basename(id, '.wasm')}` : null,
    async load(id) {
      if (!id.startsWith('\0kernel:')) return null;
      if (forPages && shared.test(id)) return 'export default new Uint8Array();';
      // Packed on its way hexadecimal text is a sixth shorter than base 64: bytes stay whole.
      const text = Buffer.from(await kernel(id.slice('\0kernel:'.length))).toString('hex');
      return `export default Uint8Array.from('${text}'.match(/../g), (byte) => Number.parseInt(byte, 16));`;
    },
  };
}

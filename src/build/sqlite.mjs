import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { root } from './identity.mjs';

const require = createRequire(join(root, 'node_modules/libsql/index.js'));

/** The compiled SQLite for this system, as its package brings it, and its name beside the command line. */
export function sqliteBinary() {
  const { familySync, GLIBC } = require('detect-libc');
  const seen = require('@neon-rs/load').currentTarget();
  const target = familySync() === GLIBC ? seen.replace(/-musl$/, '-gnu') : seen;
  const file = join(root, 'node_modules/@libsql', target, 'index.node');
  if (!existsSync(file)) throw new Error(`npm has not installed @libsql/${target}: run npm ci on this system`);
  return { file, name: `sqlite-${target}.node` };
}

/** The bundle takes the binary from beside itself, else from an installed package. */
export const sqliteForEsbuild = {
  name: 'sqlite',
  setup(build) {
    build.onLoad({ filter: /node_modules[\\/]libsql[\\/]index\.js$/ }, ({ path }) => {
      const text = readFileSync(path, 'utf8');
      const asked = /return require\(`@libsql\/\$\{target\}`\);/;
      if (!asked.test(text)) throw new Error('libsql asks for its binary in another way than it did');
      const beside = 'try { return require(["./sqlite-", target, ".node"].join("")); } catch {}';
      return { contents: text.replace(asked, (whole) => `${beside} ${whole}`), loader: 'js' };
    });
  },
};

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './identity.mjs';

const packages = join(root, 'node_modules/@libsql');

/** The compiled SQLite for this system, as its package brings it, and its name beside the command line. */
export function sqliteBinary() {
  const { platform, arch, report } = process;
  const here = readdirSync(packages).filter((name) => name.startsWith(`${platform}-${arch}`));
  const library = report.getReport().header.glibcVersionRuntime ? /gnu/ : /musl/;
  const target = platform === 'linux' ? here.find((name) => library.test(name)) : here[0];
  if (!target) throw new Error(`npm has not installed libsql for ${platform} ${arch}: run npm ci on this system`);
  return { file: join(packages, target, 'index.node'), name: `sqlite-${target}.node` };
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

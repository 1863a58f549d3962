import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Files of a package that carry its licence. */
const licence = /^(licen[cs]e|copying|notice|ofl)(\.|-|$)/i;

/** The folder of the package that a file belongs to, or null where it belongs to none. */
export function packageOf(file) {
  const clean = file.replaceAll('\\', '/').replace(/^\0/, '').split('?')[0];
  const at = clean.lastIndexOf('node_modules/');
  if (at < 0) return null;
  const [scope, name] = clean.slice(at + 'node_modules/'.length).split('/');
  return clean.slice(0, at) + join('node_modules', scope.startsWith('@') ? `${scope}/${name}` : scope);
}

/** The text of its licence files, else what its readme says under that heading. */
function licenceIn(folder) {
  const files = readdirSync(folder);
  const read = (file) => readFileSync(join(folder, file), 'utf8').trim();
  const texts = files.filter((file) => licence.test(file)).map(read);
  if (texts.length > 0) return texts.join('\n\n');
  const readme = files.find((file) => /^readme/i.test(file));
  return readme ? (/^#+ *licen[cs]e[\s\S]*/im.exec(read(readme))?.[0] ?? '') : '';
}

/** The texts of the licences of all packages that `files` belong to, by package. Throws where one has no licence. */
export function notices(files) {
  const folders = [...new Set([...files].map(packageOf).filter((folder) => folder !== null))].sort();
  const parts = folders.map((folder) => {
    const { name, version, license, repository, homepage } = JSON.parse(
      readFileSync(join(folder, 'package.json'), 'utf8'),
    );
    const text = licenceIn(folder);
    if (!text && !license) throw new Error(`${name} is bundled and says nothing of its licence`);
    const source = repository?.url ?? repository ?? homepage ?? '';
    return `${name} ${version} (${license})\n${source}\n\n${text || `Its package carries no text of the licence.`}`;
  });
  const head = 'Parts of other packages are in these files; their licences follow.';
  return `${[head, ...parts].join(`\n\n${'-'.repeat(80)}\n\n`)}\n`;
}

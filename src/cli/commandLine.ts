/** What was typed, as a shell takes it. */
export const commandLine = (): string => ['ectype', ...process.argv.slice(2).map(quoted)].join(' ');

const quoted = (word: string): string => (/^[\w./,=:@%+-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`);

// `node src/build/sideBySide.mjs A B …`: the package's scripts at the same time, what each says in one piece when it has ended; 1 as soon as one fails.
import { spawn } from 'node:child_process';

const children = [];

/** Ends with what the script said and its exit. */
const run = (name) =>
  new Promise((done) => {
    const child = spawn('npm', ['run', '--silent', name], {
      shell: process.platform === 'win32',
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    children.push(child);
    const said = [];
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (part) => said.push(part));
    child.on('close', (exit) => done({ name, exit, said: Buffer.concat(said) }));
  });

const running = process.argv.slice(2).map(async (name) => {
  const { exit, said } = await run(name);
  process.stdout.write(said);
  if (exit === 0) return;
  process.stderr.write(`npm run ${name} failed\n`);
  for (const child of children) child.kill();
  process.exitCode = 1;
});
await Promise.all(running);

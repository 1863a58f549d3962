// Calls the built command line again and again in one process: main.js is evaluated anew for each call, as Node does for a
// command that is typed, while the chunks that it loads stay loaded and compiled.
import { readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const main = resolve('dist/cli/main.js');
let calls = 0;

/** Greatest memory since the last call, MB; where the system cannot forget an earlier peak, the greatest of all. */
const peakMegabytes = () => {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))?.[1]) / 1024;
  } catch {
    return process.resourceUsage().maxRSS / 1024;
  }
};
const forgetPeak = () => {
  try {
    writeFileSync('/proc/self/clear_refs', '5');
  } catch {}
};

/** What is written while the call runs, in place of the stream's own writing. */
function taken(stream) {
  const parts = [];
  const write = stream.write;
  stream.write = (part, encoding, done) => {
    parts.push(Buffer.from(part));
    const then = typeof encoding === 'function' ? encoding : done;
    if (then) process.nextTick(then);
    return true;
  };
  return () => {
    stream.write = write;
    return Buffer.concat(parts).toString('utf8');
  };
}

process.on('disconnect', () => process.exit());
process.on('message', async (args) => {
  process.argv = [process.execPath, main, ...args];
  process.exitCode = undefined;
  const before = process.cpuUsage();
  forgetPeak();
  const [stdout, stderr] = [taken(process.stdout), taken(process.stderr)];
  let failed = '';
  try {
    await import(`${pathToFileURL(main)}?call=${calls++}`);
  } catch (error) {
    failed = `${error instanceof Error ? error.stack : error}\n`;
  }
  const used = process.cpuUsage(before);
  process.stdout.removeAllListeners('error');
  process.send({
    status: failed ? 1 : Number(process.exitCode ?? 0),
    stdout: stdout(),
    stderr: stderr() + failed,
    seconds: (used.user + used.system) / 1e6,
    megabytes: peakMegabytes(),
  });
});

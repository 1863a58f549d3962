import { mkdirSync, writeFileSync } from 'node:fs';
import { Session } from 'node:inspector';
import { join, relative } from 'node:path';
import { afterAll, expect } from 'vitest';

/**
 * Set-up file of the coverage run: what the engine counted while one test file ran, as raw ranges of the transformed
 * text, into the folder COVERAGE_TO; the text of each module beside it, once.
 */
const folder = process.env.COVERAGE_TO;
const begin = process.cpuUsage();
const session = new Session();
session.connect();
const asked = (method, parameters) => {
  let answer;
  session.post(method, parameters, (error, result) => {
    if (error) throw error;
    answer = result;
  });
  return answer;
};
asked('Profiler.enable');
asked('Profiler.startPreciseCoverage', { callCount: true, detailed: true });

afterAll(() => {
  const { result } = asked('Profiler.takePreciseCoverage');
  asked('Debugger.enable');
  mkdirSync(folder, { recursive: true });
  const scripts = result
    .map((script) => ({ ...script, file: relative(process.cwd(), script.url.replace('file://', '')) }))
    .filter(({ file }) => file.startsWith('src/core/'))
    .map(({ file, scriptId, functions }) => {
      const { scriptSource } = asked('Debugger.getScriptSource', { scriptId });
      writeFileSync(join(folder, `${file.replaceAll('/', '+')}.text`), scriptSource);
      return { file, functions: functions.map(({ ranges }) => ranges) };
    });
  const test = relative(process.cwd(), expect.getState().testPath);
  // Of the processor, not the clock: how long a test takes does not hang on what else the machine does.
  const { user, system } = process.cpuUsage(begin);
  const seconds = (user + system) / 1e6;
  writeFileSync(join(folder, `${test.replaceAll('/', '+')}.json`), JSON.stringify({ test, seconds, scripts }));
  session.disconnect();
});

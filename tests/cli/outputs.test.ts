import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { decode, encode } from 'fast-png';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { UsageError } from '../../src/cli/errors.ts';
import { OutputError } from '../../src/cli/output/errors.ts';
import type { Content } from '../../src/cli/output/filesList.ts';
import { planOutputs } from '../../src/cli/output/outputs.ts';
import { placeOf } from '../../src/cli/output/place.ts';
import { leftBeside, runIn } from './runFolder.ts';

let parent = '';
const at = (name: string): string => join(parent, name);

beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'ectype-outputs-'));
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(parent, { recursive: true, force: true });
});

/** Files such as a comparison makes, each different for each `run`. */
const filesOf = (run: string): Map<string, Content> =>
  new Map<string, Content>([
    ['record.json', `{ "run": "${run}" }\n`],
    ['report.html', `<!doctype html><head>\n<title>${run}</title></head><footer>Made.</footer>`],
    ['marks.csv', `id,readings\r\nM1,"two\r\nlines, ""${run}"""\r\nM2,${run}\r\n`],
    ['faces.svg', `<svg xmlns="http://www.w3.org/2000/svg">\n<title>${run}</title></svg>`],
    ['faces.png', encode({ width: 2, height: 1, channels: 1, depth: 8, data: Uint8Array.of(run.length, 7) })],
    ['captions.txt', `${run}\n`],
  ]);

async function writeRun(run: string, folder = at('run')): Promise<void> {
  const outputs = planOutputs({ folder });
  outputs.run(filesOf(run));
  await outputs.write();
}

describe('a run’s folder', () => {
  it('is whole, every file names its record, and nothing is left beside it', async () => {
    await writeRun('one');
    expect(runIn(at('run'))).toMatch(/^[0-9a-f]{64}$/);
    expect(leftBeside(parent)).toEqual([]);
  });

  it('takes the stamp where each format has a place for it, and else stays as it was', async () => {
    await writeRun('one');
    const hash = runIn(at('run'));
    const csv = readFileSync(at('run/marks.csv'), 'utf8');
    expect(csv).toBe(
      `id,readings,record_sha256\r\nM1,"two\r\nlines, ""one""",sha256:${hash}\r\nM2,one,sha256:${hash}\r\n`,
    );
    const png = decode(readFileSync(at('run/faces.png')), { checkCrc: true });
    expect(png.text).toEqual({ Record: `record.json sha256:${hash}` });
    expect([...png.data]).toEqual([3, 7]);
    expect(readFileSync(at('run/record.json'), 'utf8')).toBe(filesOf('one').get('record.json'));
  });

  it('is replaced as a whole by a later run', async () => {
    await writeRun('one');
    const first = runIn(at('run'));
    await writeRun('another');
    expect(runIn(at('run'))).not.toBe(first);
    expect(leftBeside(parent)).toEqual([]);
  });

  it('gives each subject’s files the hash of their own record', async () => {
    const outputs = planOutputs({ folder: at('run') });
    const files = filesOf('both');
    for (const [name, content] of filesOf('first')) files.set(`subject-1/${name}`, content);
    outputs.run(files);
    await outputs.write();
    runIn(at('run'));
  });

  it('takes in files that are planned inside it, and refuses a name for two things', async () => {
    const outputs = planOutputs({ folder: at('run'), json: at('run/record.json'), files: [at('run/more/d.txt')] });
    outputs.run(filesOf('one'));
    outputs.file(at('run/record.json'), filesOf('one').get('record.json') as string);
    outputs.file(at('run/more/d.txt'), 'differences\n');
    await outputs.write();
    runIn(at('run'));
    expect(readFileSync(at('run/more/d.txt'), 'utf8')).toContain('differences');
    const wrong = planOutputs({ folder: at('run'), files: [at('run/report.html')] });
    wrong.run(filesOf('one'));
    wrong.file(at('run/report.html'), 'differences');
    await expect(wrong.write()).rejects.toThrow(UsageError);
    expect(() => planOutputs({ files: [at('x'), at('y/../x')] })).toThrow(UsageError);
  });

  it.each([
    ['holds a file that no run made', (): void => writeFileSync(at('run/notes.txt'), 'mine')],
    ['holds a file that was changed since', (): void => writeFileSync(at('run/captions.txt'), 'mine')],
    ['has lost its list', (): void => rmSync(at('run/files.json'))],
  ])('is refused, and left as it is, where it %s', async (_, change) => {
    await writeRun('one');
    change();
    expect(() => planOutputs({ folder: at('run') })).toThrow(UsageError);
    expect(readFileSync(at('run/record.json'), 'utf8')).toContain('one');
  });

  it('is refused where it is a file, an input lies in it, or one stands in it', () => {
    writeFileSync(at('run'), '');
    expect(() => planOutputs({ folder: at('run') })).toThrow(OutputError);
    expect(() => planOutputs({ folder: parent, inputs: [at('run')] })).toThrow(UsageError);
    expect(() => planOutputs({ folder: '.' })).toThrow(UsageError);
  });
});

describe('inputs', () => {
  it('are never written over: by name, by a way round, by a link of either kind', () => {
    writeFileSync(at('d.glb'), 'scan');
    mkdirSync(at('sub'));
    symlinkSync(at('d.glb'), at('soft.json'));
    linkSync(at('d.glb'), at('hard.json'));
    symlinkSync(parent, at('here'));
    for (const name of ['d.glb', 'sub/../d.glb', 'soft.json', 'hard.json', 'here/d.glb'])
      expect(() => planOutputs({ json: at(name), inputs: [at('d.glb')] }), name).toThrow(UsageError);
  });
});

describe('what cannot be written', () => {
  it('is said in a sentence that names the place and what to do', () => {
    writeFileSync(at('file'), '');
    mkdirSync(at('folder'));
    for (const [json, words] of [
      [at('file/x.json'), /a part of the path is a file/],
      [at('folder'), /folder/],
      [at('nowhere/x.json'), /folder does not exist/],
      [at('x'.repeat(300)), /name is too long/],
    ] as const) {
      const refused = (): unknown => planOutputs({ json });
      expect(refused).toThrow(OutputError);
      expect(refused).toThrow(words);
    }
  });

  it('leaves the former run or file whole, whatever room the disk has', async () => {
    await writeRun('former');
    writeFileSync(at('single.json'), 'former');
    const former = runIn(at('run'));
    const whole = [...filesOf('later').values()].reduce((sum, content) => sum + content.length, 0);
    for (let room = 0; room < whole; room += Math.ceil(whole / 50)) {
      await withRoom(room, async () => {
        const outputs = planOutputs({ folder: at('run'), json: at('single.json') });
        outputs.run(filesOf('later'));
        outputs.file(at('single.json'), 'later');
        await expect(outputs.write()).rejects.toThrow(/single\.json cannot|run cannot.*disk is full/);
      });
      expect(runIn(at('run'))).toBe(former);
      expect(readFileSync(at('single.json'), 'utf8')).toBe('former');
      expect(leftBeside(parent)).toEqual([]);
    }
  });

  it('leaves no empty folders of the way', async () => {
    await withRoom(3, async () => {
      await expect(writeRun('one', at('a/b/run'))).rejects.toThrow(OutputError);
    });
    expect(existsSync(at('a'))).toBe(false);
  });
});

/** A disk that takes so many bytes and no more. */
async function withRoom(bytes: number, work: () => Promise<void>): Promise<void> {
  const handle = await open(process.execPath);
  const prototype = Object.getPrototypeOf(handle) as FileHandle;
  await handle.close();
  let left = bytes;
  const real = prototype.writeFile;
  const spy = vi.spyOn(prototype, 'writeFile').mockImplementation(async function (this: FileHandle, data) {
    const content = Buffer.from(data as Uint8Array);
    await real.call(this, content.subarray(0, left));
    left -= content.length;
    if (left < 0) throw Object.assign(new Error('no space'), { code: 'ENOSPC', syscall: 'write' });
  });
  try {
    await work();
  } finally {
    spy.mockRestore();
  }
}

describe('the lock', () => {
  const lock = (content: string): void => writeFileSync(placeOf(at('run')).lock, content);

  it('of a process that lives keeps others out', async () => {
    await writeRun('one');
    lock(JSON.stringify({ pid: process.pid, host: hostname(), began: null }));
    await expect(writeRun('two')).rejects.toThrow(/process \d+ on .* is writing there/);
    lock(JSON.stringify({ pid: 1, host: 'elsewhere', began: null }));
    await expect(writeRun('two')).rejects.toThrow(OutputError);
  });

  it.each([
    ['is gone', { pid: 2 ** 22 + 1, host: hostname(), began: null }],
    ['was another of the same number', { pid: process.pid, host: hostname(), began: '1' }],
  ])('of a process that %s is taken over', async (_, holder) => {
    lock(JSON.stringify(holder));
    await writeRun('two');
    runIn(at('run'));
    expect(leftBeside(parent)).toEqual([]);
  });

  it('that names nobody, its run killed as it made it, is taken over by the next', async () => {
    lock('');
    await writeRun('two');
    runIn(at('run'));
    expect(leftBeside(parent)).toEqual([]);
  });

  it('that is just being made is waited for', async () => {
    await writeRun('one');
    lock('');
    const { lock: path } = placeOf(at('run'));
    const maker = `setTimeout(() => require('node:fs').writeFileSync(${JSON.stringify(path)}, '{"pid":1,"host":"elsewhere","began":null}'), 200)`;
    const made = spawn(process.execPath, ['-e', maker]);
    await expect(writeRun('two')).rejects.toThrow(/process 1 on elsewhere/);
    await once(made, 'exit');
  });

  it('lets one of two runs at once write, or one after the other', async () => {
    const done = await Promise.allSettled([writeRun('one'), writeRun('two'), writeRun('three')]);
    expect(done.filter(({ status }) => status === 'fulfilled').length).toBeGreaterThan(0);
    runIn(at('run'));
    expect(leftBeside(parent)).toEqual([]);
  });
});

describe('what a killed run left', () => {
  it('is cleared away, and a former run that had stepped aside comes back where nothing took its place', async () => {
    await writeRun('one');
    const first = runIn(at('run'));
    const { prefix } = placeOf(at('run'));
    mkdirSync(at(`${prefix}-77.new`));
    renameSync(at('run'), at(`${prefix}-77.old`));
    await withRoom(0, async () => {
      await expect(writeRun('two')).rejects.toThrow(OutputError);
    });
    expect(runIn(at('run'))).toBe(first);
    expect(leftBeside(parent)).toEqual([]);
  });
});

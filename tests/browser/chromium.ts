import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const home = join(tmpdir(), 'ectype-chromium-147');

/**
 * The Chromium that comes with npm, unpacked once: two unpackings at the same time would write into a running file, so
 * each unpacks into a folder of its own and the first to finish gives the place its name.
 */
async function unpacked(): Promise<string> {
  const binary = join(home, 'chromium');
  if (existsSync(binary)) return binary;
  const own = mkdtempSync(join(tmpdir(), 'ectype-unpack-'));
  const before = process.env.TMPDIR;
  process.env.TMPDIR = own;
  try {
    const { default: packed } = await import('@sparticuz/chromium');
    await packed.executablePath();
  } finally {
    if (before === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = before;
  }
  if (!existsSync(join(own, 'chromium'))) throw new Error('The Chromium of @sparticuz/chromium did not unpack.');
  try {
    renameSync(own, home);
  } catch {
    if (!existsSync(binary)) cpSync(own, home, { recursive: true });
    rmSync(own, { recursive: true, force: true });
  }
  return binary;
}

const args = [
  '--no-sandbox',
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist',
  // The page itself is painted as browsers do without a graphics card; only WebGL is computed as one would.
  '--disable-gpu-rasterization',
  '--disable-gpu-compositing',
];

const environment = (temporary: string): NodeJS.ProcessEnv => ({
  ...process.env,
  TMPDIR: temporary,
  LD_LIBRARY_PATH: [home, process.env.LD_LIBRARY_PATH].filter(Boolean).join(':'),
});

/** A headless Chromium with WebGL 2 in software. */
export async function openChromium(): Promise<Browser> {
  const executablePath = await unpacked();
  const own = mkdtempSync(join(tmpdir(), 'ectype-browser-'));
  mkdirSync(own, { recursive: true });
  return chromium.launch({ executablePath, args, env: environment(own) });
}

let shared: Promise<Browser> | null = null;

/** One Chromium for all test files of a worker, that need none of their own: it starts, and translates its shaders, once. */
export async function sharedChromium(): Promise<Browser> {
  const before = await shared;
  if (before?.isConnected()) return before;
  shared = openChromium();
  return shared;
}

/** Ends what a test file opened in the Chromium that it shares. */
export async function closePages(browser: Browser | undefined): Promise<void> {
  for (const context of browser?.contexts() ?? []) await context.close();
}

/** A Chromium on a profile that outlives it, in a process group of its own, to be ended from outside. */
export interface ProfileChromium {
  readonly browser: Browser;
  /** Kills all its processes at once (SIGKILL) and waits until the first of them is gone. */
  kill(): Promise<void>;
}

/** Opens a Chromium on the profile in this folder, which may have been left by one that was killed. */
export async function openOnProfile(profile: string): Promise<ProfileChromium> {
  const executablePath = await unpacked();
  mkdirSync(profile, { recursive: true });
  const own = [
    '--headless',
    '--remote-debugging-port=0',
    `--user-data-dir=${profile}`,
    '--no-first-run',
    'about:blank',
  ];
  const child = spawn(executablePath, [...args, '--disable-dev-shm-usage', ...own], {
    detached: true,
    stdio: ['ignore', 'ignore', 'pipe'],
    env: environment(profile),
  });
  const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const address = await new Promise<string>((resolve, reject) => {
    let said = '';
    child.stderr.on('data', (part: Buffer) => {
      said += part.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(said)?.[1];
      if (found) resolve(found);
    });
    child.once('exit', (code) => reject(new Error(`Chromium ended with ${code}: ${said.slice(-400)}`)));
  });
  return {
    browser: await chromium.connectOverCDP(address),
    async kill() {
      if (child.pid !== undefined && child.exitCode === null) process.kill(-child.pid, 'SIGKILL');
      await gone;
    },
  };
}

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

/** A headless Chromium with WebGL 2 in software. */
export async function openChromium(): Promise<Browser> {
  const executablePath = await unpacked();
  const own = mkdtempSync(join(tmpdir(), 'ectype-browser-'));
  mkdirSync(own, { recursive: true });
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--use-gl=angle',
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
      '--ignore-gpu-blocklist',
      // The page itself is painted as browsers do without a graphics card; only WebGL is computed as one would.
      '--disable-gpu-rasterization',
      '--disable-gpu-compositing',
    ],
    env: {
      ...process.env,
      TMPDIR: own,
      LD_LIBRARY_PATH: [home, process.env.LD_LIBRARY_PATH].filter(Boolean).join(':'),
    },
  });
}

import { defineConfig } from 'vitest/config';
import { kernelsForVite } from './src/build/kernels.mjs';

/** What runs the program, a browser or a database, or keeps state in modules: a world of its own for each file. */
const apart = ['app', 'package'].map((folder) => `tests/${folder}/**/*.test.ts`);

/** Measures the frames of a page: alone, after all others. */
const alone = 'tests/browser/frames.test.ts';

const shared = { testTimeout: 60_000, hookTimeout: 120_000 } as const;

export default defineConfig({
  test: {
    globalSetup: ['tests/builtOnce.ts'],
    reporters: ['default', './tests/tally.ts'],
    maxWorkers: 2,
    projects: [
      { plugins: [kernelsForVite()], test: { ...shared, name: 'program', include: apart } },
      {
        plugins: [kernelsForVite()],
        test: { ...shared, name: 'frames', include: [alone], sequence: { groupOrder: 1 } },
      },
      // The core keeps nothing between calls but what it knows of an object: its tests share their modules, loaded once a worker.
      {
        plugins: [kernelsForVite()],
        test: { ...shared, name: 'core', include: ['tests/**/*.test.ts'], exclude: [...apart, alone], isolate: false },
      },
    ],
  },
});

import { defineConfig } from 'vitest/config';
import { kernelsForVite } from './src/build/kernels.mjs';
import Order from './tests/order.ts';

/** The app keeps its state in modules, and the package is installed elsewhere: a world of its own for each file. */
const apart = ['app', 'package'].map((folder) => `tests/${folder}/**/*.test.ts`);

/** Measures the frames of a page: alone, after all others. */
const alone = 'tests/browser/frames.test.ts';

const shared = { testTimeout: 60_000, hookTimeout: 120_000 } as const;

export default defineConfig({
  test: {
    globalSetup: ['tests/builtOnce.ts'],
    reporters: ['default', './tests/tally.ts'],
    maxWorkers: 2,
    sequence: { sequencer: Order },
    projects: [
      { plugins: [kernelsForVite()], test: { ...shared, name: 'apart', include: apart } },
      {
        plugins: [kernelsForVite()],
        test: { ...shared, name: 'frames', include: [alone], sequence: { groupOrder: 1 } },
      },
      // The rest keeps nothing in modules but what it knows of an object, or, of the tests' own, a process or a browser that stays: loaded once a worker.
      {
        plugins: [kernelsForVite()],
        test: {
          ...shared,
          name: 'shared',
          include: ['tests/**/*.test.ts'],
          exclude: [...apart, alone],
          isolate: false,
        },
      },
    ],
  },
});

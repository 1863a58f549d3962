import { defineConfig } from 'vitest/config';
import { kernelsForVite } from './src/build/kernels.mjs';
import Order from './tests/order.ts';

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
      {
        plugins: [kernelsForVite()],
        test: { ...shared, name: 'frames', include: [alone], sequence: { groupOrder: 1 } },
      },
      // Modules keep what they know of an object, the app's state, which its tests begin anew (tests/app/freshState.ts), and, of the tests' own, a process or a browser that stays: loaded once a worker.
      {
        plugins: [kernelsForVite()],
        test: {
          ...shared,
          name: 'shared',
          include: ['tests/**/*.test.ts'],
          exclude: [alone],
          isolate: false,
        },
      },
    ],
  },
});

import { defineConfig } from 'vitest/config';
import { kernelsForVite } from './src/build/kernels.mjs';

export default defineConfig({
  plugins: [kernelsForVite()],
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/builtOnce.ts'],
    reporters: ['default', './tests/tally.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
  },
});

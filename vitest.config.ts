import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    testTimeout: 120_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
    reporters: ['default', ['json', { outputFile: 'node_modules/.castoff/tests.json' }]],
  },
});

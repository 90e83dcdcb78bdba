/**
 * Bundles the command line into `dist/castoff.mjs`, so that `npx castoff` starts without a compiler.
 * Packages stay outside: they are installed beside it, and sharp brings a binary of its own.
 */
import { build } from 'esbuild';

await build({
  entryPoints: ['src/cli.ts'],
  outfile: 'dist/castoff.mjs',
  bundle: true,
  packages: 'external',
  platform: 'node',
  target: 'node20',
  format: 'esm',
  logLevel: 'warning',
});

/**
 * Bundles the command line into `dist/castoff.mjs`, so that `npx castoff` starts without a compiler, and
 * the worker of the desk into `dist/desk-worker.mjs` beside it.
 * Packages stay outside: they are installed beside it, and sharp brings a binary of its own.
 */
import { build } from 'esbuild';

await build({
  entryPoints: { castoff: 'src/cli.ts', 'desk-worker': 'src/desk/work/worker.ts' },
  outdir: 'dist',
  outExtension: { '.js': '.mjs' },
  bundle: true,
  packages: 'external',
  platform: 'node',
  target: 'node20',
  format: 'esm',
  logLevel: 'warning',
});

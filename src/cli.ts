#!/usr/bin/env node
/**
 * The command line: the same pipeline as in the cloud, over a local folder, with no account and no
 * keys. Lends the commands a real terminal and ends with their exit code.
 */
import { COMMANDS } from './cli/commands/index.ts';
import { runCastoff } from './cli/main.ts';
import type { Terminal } from './cli/command.ts';

const stop = new AbortController();
process.once('SIGINT', () => stop.abort());

const terminal: Terminal = {
  out: (text) => process.stdout.write(`${text}\n`),
  err: (text) => process.stderr.write(`${text}\n`),
  interactive: process.stdout.isTTY,
  folder: process.cwd(),
  signal: stop.signal,
  async readInput() {
    const chunks: Buffer[] = [];
    for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
    return Buffer.concat(chunks).toString('utf8');
  },
};

process.exitCode = await runCastoff(process.argv.slice(2), COMMANDS, terminal);

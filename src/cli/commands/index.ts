/** All commands, in the order of the help. To add one: a file in this folder and a line here. */
import type { Command } from '../command.ts';
import { checkCommand } from './check.ts';
import { countCommand } from './count.ts';
import { demoCommand } from './demo.ts';
import { deskCommand } from './desk.ts';
import { errataCommand } from './errata.ts';
import { gradeCommand } from './grade.ts';
import { packetCommand } from './packet.ts';
import { publishCommand } from './publish.ts';
import { schemaCommand } from './schema.ts';
import { starterCommand } from './starter.ts';
import { tidyCommand } from './tidy.ts';

export const COMMANDS: readonly Command[] = [
  checkCommand,
  countCommand,
  gradeCommand,
  publishCommand,
  errataCommand,
  packetCommand,
  tidyCommand,
  starterCommand,
  schemaCommand,
  demoCommand,
  deskCommand,
];

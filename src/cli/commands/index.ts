/** All commands, in the order of the help. To add one: a file in this folder and a line here. */
import type { Command } from '../command.ts';
import { checkCommand } from './check.ts';
import { countCommand } from './count.ts';
import { demoCommand } from './demo.ts';
import { deskCommand } from './desk.ts';
import { errataCommand } from './errata.ts';
import { gradeCommand } from './grade.ts';
import { packetCommand } from './packet.ts';
import { languagesCommand } from './languages.ts';
import { publishCommand } from './publish.ts';
import { schemaCommand } from './schema.ts';
import { starterCommand } from './starter.ts';
import { tidyCommand } from './tidy.ts';
import { translateCommand } from './translate.ts';

export const COMMANDS: readonly Command[] = [
  checkCommand,
  countCommand,
  gradeCommand,
  publishCommand,
  errataCommand,
  translateCommand,
  languagesCommand,
  packetCommand,
  tidyCommand,
  starterCommand,
  schemaCommand,
  demoCommand,
  deskCommand,
];

/**
 * The real rooms inside a function: templates, languages and fonts lie beside the bundled code. The
 * build names the program by its own hash, so that a new deployment never takes a document of an older
 * one for its own.
 */
import path from 'node:path';
import { type OpenedRooms, openRooms } from '../src/pipeline/rooms.ts';

/** Replaced by the build with the hash of all sources and data. */
declare const PROGRAM: string;

/** The folder that Lambda unpacks a function into; fonts are installed packages anywhere else. */
export function openOwnRooms(): Promise<OpenedRooms> {
  const root = process.env['LAMBDA_TASK_ROOT'];
  if (root === undefined) return openRooms({ root: process.cwd(), program: PROGRAM });
  return openRooms({ root, fonts: path.join(root, 'fonts'), program: PROGRAM });
}

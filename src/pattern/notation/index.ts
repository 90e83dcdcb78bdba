/**
 * Notation as other rooms see it: reading a line into its tree, and the tree itself. See `grammar.md`
 * for the whole grammar in one place.
 */
export { readLine, type LineRead } from './line.ts';
export { readRunningText, type RunningLine, type RunningText } from './running-text.ts';
export {
  printAction,
  printActions,
  printGoal,
  printLabel,
  printLine,
  printSentence,
  printStated,
} from './print/index.ts';
export type { NotationNames, NameTable, ReadingOptions } from './text/reader.ts';
export type { NotationCode, NotationProblem } from './problem.ts';
export { KNOWN_FABRICS } from './text/fabric.ts';

/** The two types of the starters' files. */
export type { Bundle } from '../../src/pattern/pattern.ts';
export type { ProseData as ProseFile } from '../../src/pattern/bundle/schema.ts';

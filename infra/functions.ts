/**
 * The functions as data: how large, how long, what each may touch and what is packed with it. The stack
 * deploys from this table, the build packs from it, the tests compare permissions with it. A new step
 * is one entry here, one folder in `functions/` and one state in the state machine.
 */
import type { StepName } from '../src/pipeline/ports.ts';

export type BucketName = 'uploads' | 'work' | 'releases';

export interface Right {
  readonly bucket: BucketName;
  /**
   * `see` is s3:ListBucket: without it S3 answers a question for a missing object with 403 instead of
   * 404. It cannot be narrowed to a prefix for that purpose.
   */
  readonly allow: 'read' | 'write' | 'see';
  /** Keys that begin so; left out for `see`. */
  readonly under?: readonly string[];
}

/** What lies beside the code of a function. */
export type Part = 'data' | 'fonts' | 'hyphenation' | 'pictures' | 'reading';

export interface FunctionPlan {
  readonly name: StepName | 'starter';
  /** 1,769 MB are one full processor. */
  readonly memoryMegabytes: number;
  /** Below the TimeoutSeconds of its state, so that the function's own end is seen. */
  readonly timeoutSeconds: number;
  readonly parts: readonly Part[];
  readonly rights: readonly Right[];
}

const read = (bucket: BucketName, ...under: string[]): Right => ({ bucket, allow: 'read', under });
const write = (bucket: BucketName, ...under: string[]): Right => ({
  bucket,
  allow: 'write',
  under,
});
const see = (bucket: BucketName): Right => ({ bucket, allow: 'see' });

/** Whoever makes an artifact may also strike it off the list of those that are to go. */
const MAKING = ['artifacts/', 'recipes/', 'tidy/'];

export const FUNCTIONS: readonly FunctionPlan[] = [
  {
    name: 'starter',
    memoryMegabytes: 512,
    timeoutSeconds: 60,
    parts: [],
    rights: [read('uploads', '')],
  },
  {
    name: 'intake',
    memoryMegabytes: 1769,
    timeoutSeconds: 150,
    parts: [],
    rights: [read('uploads', ''), write('work', 'bundles/', 'photos/', 'runs/')],
  },
  {
    name: 'check',
    memoryMegabytes: 1769,
    timeoutSeconds: 150,
    // The fonts are asked whether they have every character, before anything is made.
    parts: ['data', 'fonts'],
    rights: [
      read('work', 'bundles/', 'runs/'),
      write('work', 'runs/'),
      see('work'),
      read('releases', 'releases/'),
      see('releases'),
    ],
  },
  {
    name: 'pictures',
    memoryMegabytes: 3008,
    timeoutSeconds: 540,
    parts: ['data', 'pictures'],
    rights: [
      read('work', 'bundles/', 'photos/'),
      write('work', 'runs/'),
      read('releases', ...MAKING),
      write('releases', ...MAKING),
      see('releases'),
    ],
  },
  {
    name: 'compose',
    memoryMegabytes: 1769,
    timeoutSeconds: 270,
    parts: ['data', 'fonts', 'hyphenation'],
    rights: [
      read('work', 'bundles/', 'runs/'),
      read('releases', ...MAKING),
      write('releases', ...MAKING),
      see('releases'),
    ],
  },
  {
    name: 'proof',
    memoryMegabytes: 1769,
    timeoutSeconds: 270,
    parts: ['data', 'fonts', 'hyphenation', 'reading'],
    rights: [
      read('work', 'bundles/', 'runs/'),
      write('work', 'runs/'),
      read('releases', 'artifacts/'),
    ],
  },
  {
    name: 'stage',
    memoryMegabytes: 1769,
    timeoutSeconds: 270,
    parts: ['data'],
    rights: [
      read('work', 'bundles/', 'runs/'),
      write('work', 'runs/'),
      see('work'),
      read('releases', ...MAKING, 'releases/'),
      write('releases', ...MAKING, 'releases/'),
      see('releases'),
    ],
  },
  {
    name: 'failed',
    memoryMegabytes: 256,
    timeoutSeconds: 30,
    parts: [],
    rights: [write('work', 'runs/')],
  },
];

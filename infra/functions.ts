/**
 * The functions as data: how large, how long, what each may touch and what is packed with it. The stack
 * deploys from this table, the build packs from it, the tests compare permissions with it. A new step
 * is one entry here, one folder in `functions/` and one state in the state machine.
 */
import type { StepName } from '../src/pipeline/ports.ts';

export type BucketName = 'uploads' | 'work' | 'releases' | 'shelf';

export interface Right {
  readonly bucket: BucketName;
  /**
   * `see` is s3:ListBucket: without it S3 answers a question for a missing object with 403 instead of
   * 404. It cannot be narrowed to a prefix for that purpose.
   */
  readonly allow: 'read' | 'write' | 'see' | 'delete';
  /** Keys that begin so in the room of any studio; left out for `see`. */
  readonly under?: readonly string[];
}

/** What lies beside the code of a function. The shaper is loaded with the rooms, even where nothing is set. */
export type Part =
  'data' | 'pages' | 'starters' | 'fonts' | 'shaping' | 'hyphenation' | 'pictures' | 'reading';

/** Who calls a function, and so where its failures go. */
export type Caller = 'publishing' | 'batches' | 'tidying' | 'uploads' | 'orders' | 'gateway';

export interface FunctionPlan {
  readonly name: StepName | 'starter' | 'plan' | 'studios' | 'tidy' | 'zip' | 'api' | 'pages';
  readonly calledBy: Caller;
  /** 1,769 MB are one full processor. */
  readonly memoryMegabytes: number;
  /** Below the TimeoutSeconds of its state, so that the function's own end is seen. */
  readonly timeoutSeconds: number;
  readonly parts: readonly Part[];
  readonly rights: readonly Right[];
  /** Tells studios how their runs ended. */
  readonly tells?: true;
}

const read = (bucket: BucketName, ...under: string[]): Right => ({ bucket, allow: 'read', under });
const write = (bucket: BucketName, ...under: string[]): Right => ({
  bucket,
  allow: 'write',
  under,
});
const remove = (bucket: BucketName, ...under: string[]): Right => ({
  bucket,
  allow: 'delete',
  under,
});
const see = (bucket: BucketName): Right => ({ bucket, allow: 'see' });

/** Whoever makes an artifact may also strike it off the list of those that are to go. */
const MAKING = ['artifacts/', 'recipes/', 'tidy/'];

/** Bundles of the shelf as they were at one moment: written once, read by whoever holds their hash. */
const FROZEN = ['files/', 'trees/'];
const SHELF = [...FROZEN, 'bundles/', 'uploads/', 'away/'];

/** Looks at an upload and writes down which run it starts. */
const STARTING: readonly Right[] = [
  read('uploads', ''),
  read('work', 'runs/'),
  write('work', 'runs/', 'uploads/', 'started/'),
];
const ENDING: readonly Right[] = [read('work', 'runs/'), write('work', 'runs/'), see('work')];

export const FUNCTIONS: readonly FunctionPlan[] = [
  {
    name: 'starter',
    calledBy: 'uploads',
    memoryMegabytes: 512,
    timeoutSeconds: 60,
    parts: [],
    rights: STARTING,
  },
  {
    name: 'plan',
    calledBy: 'batches',
    memoryMegabytes: 512,
    timeoutSeconds: 60,
    parts: [],
    rights: STARTING,
  },
  {
    name: 'intake',
    calledBy: 'publishing',
    memoryMegabytes: 1769,
    timeoutSeconds: 150,
    parts: [],
    rights: [
      read('uploads', ''),
      read('shelf', ...FROZEN),
      write('work', 'bundles/', 'photos/', 'runs/'),
    ],
  },
  {
    name: 'check',
    calledBy: 'publishing',
    memoryMegabytes: 1769,
    timeoutSeconds: 150,
    // The fonts are asked whether they have every character, before anything is made.
    parts: ['data', 'fonts', 'shaping'],
    rights: [
      read('work', 'bundles/', 'runs/'),
      write('work', 'runs/'),
      see('work'),
      read('releases', 'releases/', 'artifacts/'),
      see('releases'),
    ],
  },
  {
    name: 'pictures',
    calledBy: 'publishing',
    memoryMegabytes: 3008,
    timeoutSeconds: 540,
    parts: ['data', 'shaping', 'pictures'],
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
    calledBy: 'publishing',
    memoryMegabytes: 1769,
    timeoutSeconds: 270,
    parts: ['data', 'fonts', 'shaping', 'hyphenation'],
    rights: [
      read('work', 'bundles/', 'runs/'),
      read('releases', ...MAKING),
      write('releases', ...MAKING),
      see('releases'),
    ],
  },
  {
    name: 'proof',
    calledBy: 'publishing',
    memoryMegabytes: 1769,
    timeoutSeconds: 270,
    parts: ['data', 'fonts', 'shaping', 'hyphenation', 'reading'],
    rights: [
      read('work', 'bundles/', 'runs/'),
      write('work', 'runs/'),
      read('releases', 'artifacts/'),
    ],
  },
  {
    name: 'stage',
    calledBy: 'publishing',
    memoryMegabytes: 1769,
    timeoutSeconds: 270,
    parts: ['data', 'fonts', 'shaping', 'hyphenation', 'pictures', 'reading'],
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
    name: 'report',
    calledBy: 'publishing',
    memoryMegabytes: 512,
    timeoutSeconds: 30,
    parts: [],
    rights: ENDING,
    tells: true,
  },
  {
    name: 'failed',
    calledBy: 'publishing',
    memoryMegabytes: 512,
    timeoutSeconds: 30,
    parts: [],
    rights: ENDING,
    tells: true,
  },
  {
    name: 'studios',
    calledBy: 'tidying',
    memoryMegabytes: 512,
    timeoutSeconds: 60,
    parts: [],
    rights: [see('releases')],
  },
  {
    name: 'tidy',
    calledBy: 'tidying',
    memoryMegabytes: 1024,
    timeoutSeconds: 840,
    parts: [],
    // The only one that deletes what was made, and no manifest: what is released stays.
    rights: [
      read('releases', 'recipes/', 'tidy/', 'releases/'),
      write('releases', 'tidy/'),
      remove('releases', ...MAKING),
      see('releases'),
    ],
  },
  {
    name: 'zip',
    calledBy: 'orders',
    memoryMegabytes: 1024,
    // Four gigabytes, read and written at 40 MB a second.
    timeoutSeconds: 240,
    parts: [],
    rights: [
      read('releases', 'releases/', 'artifacts/'),
      see('releases'),
      read('work', 'zips/'),
      write('work', 'zips/'),
      see('work'),
    ],
  },
  {
    name: 'api',
    calledBy: 'gateway',
    // As for the intake: a bundle that was uploaded is unpacked here and laid on the shelf.
    memoryMegabytes: 1769,
    // The gateway waits for half a minute.
    timeoutSeconds: 29,
    parts: ['starters'],
    // What it may do, an address that it signs may do for a quarter of an hour.
    rights: [
      write('uploads', ''),
      read('uploads', 'desk/'),
      see('uploads'),
      read('shelf', ...SHELF),
      write('shelf', ...SHELF),
      // The mark that says a bundle is put away; the bundle stays.
      remove('shelf', 'away/'),
      see('shelf'),
      read('work', 'runs/', 'uploads/', 'started/', 'drafts/', 'zips/'),
      // That a run was started or stopped, what the pages made, and orders of zips.
      write('work', 'runs/', 'started/', 'drafts/', 'zips/'),
      see('work'),
      read('releases', 'releases/', 'artifacts/'),
      see('releases'),
    ],
  },
  {
    name: 'pages',
    calledBy: 'gateway',
    // A bundle of 400 MB is zipped here; most of the time this is one quick processor.
    memoryMegabytes: 3008,
    timeoutSeconds: 29,
    // It checks, draws and sets what a page shows; papers for people are read again as documents are.
    parts: ['pages', 'data', 'fonts', 'shaping', 'hyphenation', 'pictures', 'reading'],
    // Whatever it shows it asks the API for, with the token of the person before it.
    rights: [],
  },
];

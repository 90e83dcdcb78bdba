/**
 * `castoff publish`: checks a bundle, makes every document that is not made yet, and stages the
 * release in a folder or a bucket: whole or not at all.
 */
import { randomUUID } from 'node:crypto';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { printFindings } from '../../findings/text.ts';
import type { Progress } from '../../pipeline/ports.ts';
import { publish, type Published, type PublishOptions } from '../../pipeline/publish.ts';
import { madeName } from '../../release/made.ts';
import type { Manifest } from '../../release/manifest.ts';
import { STAGES } from '../../release/stage.ts';
import { openStore } from '../../store/open.ts';
import {
  type Command,
  type ExitCode,
  listOption,
  onlyWord,
  type Options,
  type Terminal,
  textOption,
  usageFault,
} from '../command.ts';
import { bundlePath, openOwnRooms } from '../resources.ts';
import { STORE_FOLDER } from '../versions.ts';

export const publishCommand: Command = {
  name: 'publish',
  words: 'BUNDLE',
  about: 'check, set every language, and stage the release in a folder or a bucket',
  options: {
    to: { kind: 'text', value: 'FOLDER|s3://BUCKET/PREFIX', about: 'where the release goes' },
    languages: {
      kind: 'text',
      value: 'TAGS',
      about: 'only these languages of the bundle: en-US,de',
    },
    editions: {
      kind: 'text',
      value: 'LIST',
      about: 'standard (the default), large, ink-saving, one-size: one or more, with commas',
    },
    stage: {
      kind: 'text',
      value: 'STAGE',
      about: 'proof (for the editor), test (for test knitters) or sale (the default)',
    },
    unreviewed: {
      kind: 'text',
      value: 'TAGS',
      about: 'languages that go on sale although no knitter has reviewed them: fi,he; or all',
    },
    paper: {
      kind: 'text',
      value: 'LIST',
      about: 'A4, Letter: each edition on each of them; else the paper of the language’s country',
    },
  },
  examples: [
    'castoff publish my-hat --to out',
    'castoff publish my-hat --to out --languages en-US,de --editions standard,large',
    'castoff publish my-hat --to out --paper A4,Letter',
    'castoff publish my-hat --to out --stage proof',
    'castoff publish my-hat.zip --to s3://my-patterns/releases',
  ],
  run(words, options, terminal) {
    const bundle = onlyWord(publishCommand, words, 'a BUNDLE: a folder or a zip');
    const to = textOption(options, 'to');
    if (to === undefined) throw usageFault(publishCommand, 'publish needs --to FOLDER or s3://…');
    return publishBundle(bundlePath(bundle, terminal), to, options, terminal);
  },
};

export async function publishBundle(
  bundle: string,
  to: string,
  options: Options,
  terminal: Terminal,
): Promise<ExitCode> {
  const folder = to.startsWith('s3://') ? undefined : path.resolve(terminal.folder, to);
  const releases = await openStore(folder === undefined ? to : path.join(folder, STORE_FOLDER));
  const languages = listOption(options, 'languages');
  const editions = editionsOf(options, await sizesOf(bundle));
  const unreviewed = listOption(options, 'unreviewed');
  const stage = textOption(options, 'stage');
  const order: PublishOptions = {
    bundle,
    releases,
    ...(folder !== undefined && { folder }),
    ...(languages !== undefined && { languages }),
    ...(editions !== undefined && { editions }),
    ...(unreviewed !== undefined && { unreviewed }),
    ...(stage !== undefined && { stage: oneOf(STAGES, stage, 'stage') }),
    ...(terminal.signal !== undefined && { signal: terminal.signal }),
  };
  const rooms = await openOwnRooms();
  const world = { rooms, token: randomUUID() };
  const published = await publish(order, world, progressPrinter(terminal));
  return tell(published, to, terminal);
}

type Editions = NonNullable<PublishOptions['editions']>;

const KINDS = ['standard', 'large', 'ink-saving', 'one-size'] as const;

const PAPERS = ['A4', 'Letter'] as const;

/** `one-size` stands for one document for each size; each edition is made on each paper. */
function editionsOf(options: Options, sizes: readonly string[]): Editions | undefined {
  const names = listOption(options, 'editions');
  const papers = listOption(options, 'paper')?.map((name) => oneOf(PAPERS, name, 'paper'));
  if (names === undefined && papers === undefined) return undefined;
  const editions = (names ?? ['standard']).flatMap((name): Editions => {
    const kind = oneOf(KINDS, name, 'edition');
    return kind === 'one-size' ? sizes.map((size) => ({ kind, size })) : [{ kind }];
  });
  return editions.flatMap(
    (edition) => papers?.map((paper) => ({ ...edition, paper })) ?? [edition],
  );
}

/** Whatever the case of its letters. */
function oneOf<Name extends string>(names: readonly Name[], given: string, what: string): Name {
  const found = names.find((name) => name.toLowerCase() === given.toLowerCase());
  if (found !== undefined) return found;
  throw new Fault('usage', `there is no ${what} “${given}”`, {
    remedy: `one of: ${names.join(', ')}`,
  });
}

/** Sizes of a bundle that can be read; one that cannot is told by the run itself. */
async function sizesOf(bundle: string): Promise<readonly string[]> {
  const { loadBundle } = await import('../../pattern/bundle/load.ts');
  const { unpackBundle } = await import('../../pattern/bundle/unpack.ts');
  return loadBundle(await unpackBundle(bundle)).bundle?.data.sizes ?? [];
}

/** Prints each line once: a photograph in five sizes is one line. */
function progressPrinter(terminal: Terminal): (event: Progress) => void {
  let last = '';
  return (event) => {
    const line = sayProgress(event);
    if (line !== last) terminal.out(line);
    last = line;
  };
}

const STEP_WORDS: Readonly<Record<Progress['step'], string>> = {
  intake: 'read',
  check: 'check',
  pictures: 'picture',
  compose: 'set',
  proof: 'proof',
  stage: 'stage',
  report: 'told',
  failed: 'stopped',
};

/** One line a step: `set      de       made`. */
function sayProgress({ step, state, language, edition, picture }: Progress): string {
  const what = [language, edition === 'standard' ? undefined : edition, picture]
    .filter((each) => each !== undefined)
    .join(' ');
  return `  ${STEP_WORDS[step].padEnd(8)} ${what.padEnd(24)} ${state}`.trimEnd();
}

function tell(published: Published, to: string, terminal: Terminal): ExitCode {
  if (published.findings.length > 0) terminal.out(printFindings(published.findings));
  if (published.outcome === 'blocked') {
    terminal.out('Nothing was written: findings block the release.');
    return 1;
  }
  const { manifest, made, reused, outcome } = published;
  const name = nameOf(manifest);
  const documents = manifest.files.filter(({ role }) => role === 'document').length;
  terminal.out(
    outcome === 'already'
      ? `${name} was ${manifest.stage === undefined ? 'released' : 'made'} before with this very content: ${reused} artifacts are there, ${made} were made.`
      : `${name} is ${manifest.stage === undefined ? 'released' : 'made'}: ${documents} documents, ${manifest.files.length} files; ${made} artifacts made, ${reused} reused.`,
  );
  if (published.setAside !== undefined) {
    terminal.out(
      `The folder of this version had been changed by hand; it is kept as ${path.relative(terminal.folder, published.setAside)}.`,
    );
  }
  tellStage(manifest, terminal);
  const base = `${to}/${manifest.pattern}/${madeName(manifest)}`;
  if (!to.startsWith('s3://')) {
    terminal.out('To open:');
    for (const file of manifest.files)
      if (file.role === 'document') terminal.out(`  ${base}/${file.path}`);
  }
  return 0;
}

/** `my-hat 1.0.0`, `proof 2 of my-hat 1.0.0`. */
function nameOf({ pattern, version, stage, copy = 1 }: Manifest): string {
  const name = `${pattern} ${version}`;
  if (stage === undefined) return name;
  return `${stage === 'proof' ? 'proof' : 'test copy'} ${copy} of ${name}`;
}

/** What a reader should know of the stage, and what comes next. */
function tellStage({ stage, unreviewed = [] }: Manifest, terminal: Terminal): void {
  if (stage !== undefined) {
    const next = stage === 'proof' ? 'test' : 'sale';
    terminal.out(
      `Every page says that it is not for sale. When it is right: publish again with --stage ${next}; what is set already is used again.`,
    );
  } else if (unreviewed.length > 0)
    terminal.out(`For sale without review, as you chose: ${unreviewed.join(', ')}.`);
}

/**
 * `castoff errata OLD NEW`: what a buyer of the old version must correct, in the knitter's terms. Prints
 * it, or writes sheet and notice in every language; refuses a version number that is too small.
 */
import { mkdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { blocks } from '../../findings/finding.ts';
import { printFindings } from '../../findings/text.ts';
import { checkPattern } from '../../pattern/checks/index.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import type { Equipment } from '../../pipeline/rooms.ts';
import { earlierVersions, recallRelease } from '../../release/earlier.ts';
import { type Errata, writeErrata } from '../../release/errata/errata.ts';
import { adviseVersion } from '../../release/errata/version.ts';
import {
  type Command,
  type ExitCode,
  listOption,
  type Options,
  type Terminal,
  textOption,
  usageFault,
  type Words,
} from '../command.ts';
import { openOwnEquipment } from '../resources.ts';
import { type GivenVersion, readVersion } from '../versions.ts';

export const errataCommand: Command = {
  name: 'errata',
  words: 'OLD NEW',
  about: 'say what changed between two versions; each is a bundle or a released version',
  options: {
    to: { kind: 'text', value: 'FOLDER', about: 'write sheet and notice in every language there' },
    languages: { kind: 'text', value: 'TAGS', about: 'only these languages: en-US,de' },
  },
  examples: [
    'castoff errata out/my-hat/1.0.0 my-hat',
    'castoff errata out/my-hat/1.0.0 out/my-hat/1.0.1 --to corrections',
    'castoff errata s3://my-patterns/releases/my-hat/1.0.0 my-hat.zip --languages de',
  ],
  async run(words, options, terminal) {
    const [old, now] = await readBoth(words, terminal);
    const checked = checkPattern(now.bundle);
    const blocking = checked.findings.filter(blocks);
    if (blocking.length > 0) {
      terminal.out(printFindings(blocking));
      terminal.out('The new version has findings that block it; correct these first.');
      return 1;
    }
    const earlier = await earlierOf(old, now);
    const languages = languagesOf(old, now, options);
    const equipment = await openOwnEquipment();
    const errata = languages.map((tag) => write(tag, checked, earlier, equipment));
    const [source] = errata;
    terminal.out(source ? source.text.trimEnd() : 'Both versions print the same.');
    const code = tellVersion(old, now, terminal);
    const to = textOption(options, 'to');
    if (to !== undefined && code === 0)
      await writeFiles(path.resolve(terminal.folder, to), now, languages, errata, equipment);
    if (to !== undefined && code === 0) terminal.out(`\nWritten to ${to}: ${languages.join(', ')}`);
    return code;
  },
};

async function readBoth(
  words: Words,
  terminal: Terminal,
): Promise<readonly [old: GivenVersion, now: GivenVersion]> {
  const [first, second, ...rest] = words;
  if (first === undefined || second === undefined || rest.length > 0)
    throw usageFault(errataCommand, 'errata needs OLD and NEW');
  const [old, now] = [await readVersion(first, terminal), await readVersion(second, terminal)];
  const [a, b] = [old.bundle.data.id, now.bundle.data.id];
  if (a === b) return [old, now];
  throw new Fault('usage', `${a} and ${b} are two patterns, not two versions of one`, {
    remedy: 'give two versions with the same "id"',
  });
}

/** The old version first, then those before it, where its store is known. */
async function earlierOf(old: GivenVersion, now: GivenVersion): Promise<readonly CheckedPattern[]> {
  const { id, version } = old.bundle.data;
  const store = old.store ?? now.store;
  const before = store ? await earlierVersions(store, id, version) : [];
  const bundles = [old.bundle];
  for (const each of before) if (store) bundles.push(await recallRelease(store, id, each));
  return bundles.map(checkPattern);
}

/** Nobody has an earlier version in a language that is new. */
function languagesOf(old: GivenVersion, now: GivenVersion, options: Options): readonly string[] {
  const { language, languages } = now.bundle.data;
  const offered = languages.filter((tag) => old.bundle.data.languages.includes(tag));
  const wanted = listOption(options, 'languages') ?? offered;
  const unknown = wanted.find((tag) => !offered.includes(tag));
  if (unknown !== undefined) {
    throw new Fault('usage', `there are not two versions in ${unknown}`, {
      remedy: `there are in ${offered.join(', ')}`,
    });
  }
  return [...wanted].sort((a, b) => Number(b === language) - Number(a === language));
}

function write(
  tag: string,
  now: CheckedPattern,
  earlier: readonly CheckedPattern[],
  { languages, templates }: Equipment,
): Errata | undefined {
  const language = languages.get(tag);
  if (!language) throw new Fault('input', `there is no language ${tag}`, { place: tag });
  return writeErrata({ now, language, earlier }, templates);
}

function tellVersion(old: GivenVersion, now: GivenVersion, terminal: Terminal): ExitCode {
  const advice = adviseVersion(old.bundle.data, now.bundle.data);
  if (!advice) return 0;
  terminal.err(
    `castoff: ${advice.problem}\n  = raise "version" in pattern.json to ${advice.least}`,
  );
  return 1;
}

async function writeFiles(
  folder: string,
  now: GivenVersion,
  languages: readonly string[],
  errata: readonly (Errata | undefined)[],
  { fonts }: Equipment,
): Promise<void> {
  const { id, version } = now.bundle.data;
  for (const [index, tag] of languages.entries()) {
    const printed = await errata[index]?.print(fonts);
    const problems = printed?.findings ?? [];
    if (problems.length > 0) throw new Fault('input', printFindings(problems), { place: tag });
    for (const { name, bytes } of printed?.files ?? []) {
      const place = path.join(folder, tag, `${id}-${version}-${tag}-${name}`);
      await mkdir(path.dirname(place), { recursive: true });
      await writeFile(place, bytes);
    }
  }
}

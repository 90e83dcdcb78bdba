/**
 * `castoff translate`: sends the prose of a bundle to translators as XLIFF with the glossary as TBX,
 * takes it back checked, and records which source a text was translated from. Whole or not at all.
 */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { blocks } from '../../findings/finding.ts';
import { printFindings } from '../../findings/text.ts';
import { proseFile } from '../../pattern/bundle/load.ts';
import {
  languageOf,
  recordFor,
  sendOut,
  takeBack,
  writeProse,
  writeTbx,
} from '../../translation/index.ts';
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
import { bundlePath } from '../resources.ts';
import { bundleWith, languageNamed, openWorkplace, type Workplace } from '../translate/open.ts';
import { writeNew, writeProseFile } from '../translate/write.ts';

export const translateCommand: Command = {
  name: 'translate',
  words: 'BUNDLE',
  about: 'send new and changed texts to translators, take them back checked',
  options: {
    to: {
      kind: 'text',
      value: 'TAGS',
      about: 'write an XLIFF and a TBX file for each of these languages: de,fr',
    },
    all: { kind: 'flag', about: 'with --to: every text, with the translations that hold' },
    out: { kind: 'text', value: 'FOLDER', about: 'with --to: where they go; else translation' },
    from: { kind: 'text', value: 'FILE', about: 'take a translated XLIFF file into the bundle' },
    record: {
      kind: 'text',
      value: 'TAGS|all',
      about: 'say that these translations say what the source says now',
    },
  },
  examples: [
    'castoff translate my-hat --to de,fr',
    'castoff translate my-hat --from translation/my-hat-1.0.0-de.xlf',
    'castoff translate my-hat --record de',
  ],
  async run(words, options, terminal) {
    const word = onlyWord(translateCommand, words, 'a BUNDLE: a folder or a zip');
    const asked = ['to', 'from', 'record'].filter((name) => options[name] !== undefined);
    if (asked.length !== 1)
      throw usageFault(translateCommand, 'translate needs one of --to, --from and --record');
    const bundle = bundlePath(word, terminal);
    const work = await openWorkplace(bundle);
    const [to, from] = [listOption(options, 'to'), textOption(options, 'from')];
    if (to) return send(work, to, options, terminal);
    if (from !== undefined) return take(bundle, work, from, terminal);
    return record(bundle, work, listOption(options, 'record') ?? [], terminal);
  },
};

const tell = (findings: Parameters<typeof printFindings>[0], terminal: Terminal): void => {
  if (findings.length > 0) terminal.out(printFindings(findings));
};

async function send(
  work: Workplace,
  tags: readonly string[],
  options: Options,
  terminal: Terminal,
): Promise<ExitCode> {
  for (const tag of tags) languageNamed(work, tag, undefined);
  const { bundle, findings } = bundleWith(work.files, tags);
  if (!bundle) return unread(findings, terminal);
  const { id, version, language } = bundle.data;
  const source = languageNamed(work, language, undefined);
  const named = textOption(options, 'out') ?? 'translation';
  for (const tag of tags) {
    const target = languageNamed(work, tag, language);
    const sent = sendOut({ bundle, source, target, all: options['all'] === true });
    if (sent.xliff === undefined) {
      terminal.out(`${tag}: nothing to translate; every text holds.`);
      continue;
    }
    const folder = path.resolve(terminal.folder, named);
    const name = `${id}-${version}-${tag}`;
    await writeNew(folder, `${name}.xlf`, sent.xliff);
    await writeNew(folder, `${name}.tbx`, writeTbx(source, target));
    const done = sent.done === 0 ? '' : `, ${sent.done} of them translated`;
    terminal.out(
      `${tag}: ${named}/${name}.xlf with ${count(sent.segments.length, 'text')}${done}; terms in ${name}.tbx`,
    );
  }
  return 0;
}

const count = (number: number, word: string): string =>
  `${number} ${word}${number === 1 ? '' : 's'}`;

function unread(findings: Parameters<typeof printFindings>[0], terminal: Terminal): ExitCode {
  tell(findings, terminal);
  terminal.out('The bundle cannot be read, so that nothing can be translated.');
  return 1;
}

async function take(
  folder: string,
  work: Workplace,
  name: string,
  terminal: Terminal,
): Promise<ExitCode> {
  const bytes = await readFile(path.resolve(terminal.folder, name)).catch((cause: unknown) => {
    throw new Fault('missing', `${name} cannot be read`, { place: name, cause });
  });
  const file = path.basename(name);
  const tag = languageOf(bytes, file, work.languages);
  const { bundle, findings } = bundleWith(work.files, tag === undefined ? [] : [tag]);
  if (!bundle) return unread(findings, terminal);
  const taken = takeBack({ bundle, languages: work.languages, bytes, file });
  tell(taken.findings, terminal);
  const { prose, record: sources, language } = taken;
  if (!prose || !sources || taken.findings.some(blocks)) {
    terminal.out('Nothing was written.');
    return 1;
  }
  const before = work.files.get(proseFile(language));
  const written = writeProse(before, prose, sources);
  const next = new Map(work.files).set(proseFile(language), written);
  const read = bundleWith(next, [language]);
  if (!read.bundle) return unread(read.findings, terminal);
  await writeProseFile(folder, language, written);
  terminal.out(`${language}: ${count(taken.taken.length, 'text')} taken into ${proseFile(language)}`);
  if (!bundle.data.languages.includes(language))
    terminal.out(`Add "${language}" to "languages" in pattern.json to publish it.`);
  return 0;
} // prettier-ignore

async function record(
  folder: string,
  work: Workplace,
  wanted: readonly string[],
  terminal: Terminal,
): Promise<ExitCode> {
  const known = bundleWith(work.files, []).bundle?.data.language;
  const written = [...work.languages.keys()].filter((tag) => work.files.has(proseFile(tag)));
  const tags = wanted.join() === 'all' ? written.filter((tag) => tag !== known) : wanted;
  for (const tag of tags) languageNamed(work, tag, known);
  const { bundle, findings } = bundleWith(work.files, tags);
  if (!bundle) return unread(findings, terminal);
  const source = bundle.prose.get(bundle.data.language) ?? {};
  for (const tag of tags) {
    const prose = bundle.prose.get(tag);
    const before = work.files.get(proseFile(tag));
    if (!prose || !before)
      throw new Fault('missing', `there is no ${proseFile(tag)}`, { place: folder });
    const sources = recordFor(source, prose);
    await writeProseFile(folder, tag, writeProse(before, prose, sources));
    terminal.out(`${tag}: ${count(Object.keys(sources).length, 'text')} tied to the source as it is`);
  }
  return 0;
} // prettier-ignore

/**
 * `castoff languages`: which languages there are, how they are written, how far their words have been
 * reviewed and by what; and for a bundle how many of its texts are translated, outdated or missing.
 */
import path from 'node:path';
import { columnsOf, padEnd } from '../../findings/columns.ts';
import { type Language, loadLanguages, overviewOf } from '../../language/index.ts';
import { lackingEntries, surveyProse } from '../../translation/index.ts';
import { printFindings } from '../../findings/text.ts';
import { type Command, type ExitCode, type Terminal, usageFault } from '../command.ts';
import { bundlePath, rootFolder } from '../resources.ts';
import { bundleWith, openWorkplace } from '../translate/open.ts';

export const languagesCommand: Command = {
  name: 'languages',
  words: '[BUNDLE]',
  about: 'list the languages and how far each goes; for a bundle, its texts in each of them',
  options: {},
  examples: ['castoff languages', 'castoff languages my-hat'],
  async run(words, _options, terminal) {
    const [bundle, ...rest] = words;
    if (rest.length > 0) throw usageFault(languagesCommand, 'languages takes one BUNDLE or none');
    if (bundle !== undefined) return printProse(bundlePath(bundle, terminal), terminal);
    terminal.out(languageTable(await loadLanguages(path.join(rootFolder, 'locales'))));
    return 0;
  },
};

/** The reference glossary: it has every entry. */
const REFERENCE = 'en-US';

function languageTable(languages: ReadonlyMap<string, Language>): string {
  const reference = languages.get(REFERENCE);
  const rows = overviewOf(languages).map((each) => {
    const language = languages.get(each.tag);
    const lacking = language && reference ? lackingEntries(language, reference).length : 0;
    const { script = '', direction = '', paper = '' } = language?.settings ?? {};
    const head = [each.tag, each.englishName, each.name, script, direction, paper];
    const terms = [String(each.terms), String(each.confirmed), String(lacking)];
    return [...head, ...terms, `${each.review}: ${each.source}`];
  });
  const head = ['tag', 'language', 'name', 'script', 'dir', 'paper', 'terms', 'sourced', 'lacking', 'review']; // prettier-ignore
  return [
    ...table([head, ...rows]),
    '',
    `terms: entries of the glossary; sourced: of them, not from memory; lacking: entries of ${REFERENCE} it has not`,
  ].join('\n');
}

/** Columns as wide as their widest cell; the last one runs on. */
function table(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = (rows[0] ?? []).map((_, at) =>
    Math.max(...rows.map((row) => columnsOf(row[at] ?? ''))),
  );
  return rows.map((row) =>
    row.map((cell, at) => (at === row.length - 1 ? cell : padEnd(cell, (widths[at] ?? 0) + 2))).join('').trimEnd(),
  ); // prettier-ignore
}

async function printProse(bundle: string, terminal: Terminal): Promise<ExitCode> {
  const { files, languages } = await openWorkplace(bundle);
  const tags = [...languages.keys()];
  const opened = bundleWith(files, tags);
  if (!opened.bundle) {
    terminal.out(printFindings(opened.findings));
    return 1;
  }
  const { id, version } = opened.bundle.data;
  const rows = surveyProse(opened.bundle).map((each) => [
    each.tag,
    languages.get(each.tag)?.settings.englishName ?? 'no language of castoff',
    ...[each.segments, each.translated, each.outdated, each.missing, each.untied].map(String),
    each.role === 'translation' ? (each.outdated + each.missing > 0 ? 'not finished' : '') : each.role,
  ]); // prettier-ignore
  const head = ['tag', 'language', 'texts', 'translated', 'outdated', 'missing', 'untied', ''];
  terminal.out([`${id} ${version}`, '', ...table([head, ...rows])].join('\n'));
  return 0;
}

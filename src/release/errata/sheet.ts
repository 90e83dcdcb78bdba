/**
 * The errata sheet in one language: what a buyer of the earlier version must change in hers, place by
 * place, with what it said and what it says. Takes what changed and which versions are concerned; gives
 * a document for the press, so that the same sheet becomes a PDF, a page and plain text.
 */
import { assertNever } from '../../base/assert.ts';
import { escapeMarkup } from '../../base/escape.ts';
import { sayDate } from '../../language/index.ts';
import type { Document } from '../../press/document.ts';
import { readMarkup } from '../../press/edition/markup.ts';
import { dataOf, type EditionOrder, wordsOf } from '../../press/edition/order.ts';
import type { Templates } from '../../press/edition/templates.ts';
import { titleOf } from '../../press/edition/view/cover.ts';
import { versionLine } from '../../press/edition/view/closing.ts';
import { openProse, type Prose } from '../../press/edition/view/prose.ts';
import { alignLines } from './align.ts';
import { type Change, isCorrection, type LineChange } from './changes.ts';
import { markDifferences } from './emphasis.ts';
import { instructionOf } from './lines.ts';
import { partOf, placeOf, reasonsFor, sizesOf } from './places.ts';

export interface SheetOrder {
  /** The new version in its language; pictures play no part. */
  readonly edition: EditionOrder;
  /** The version the sheet leads from. */
  readonly old: string;
  readonly changes: readonly Change[];
  /** Earlier versions that have the errors, and those that have not. */
  readonly affected: readonly string[];
  readonly unaffected: readonly string[];
}

export function buildSheet(order: SheetOrder, templates: Templates): Document {
  const { edition } = order;
  const words = wordsOf(edition);
  const data = dataOf(edition);
  const prose = openProse(edition);
  const { settings } = edition.language;
  const view = viewOf(order, prose);
  const markup = templates.write('errata', view, (key) => words(key));
  return {
    title: view.title,
    author: data.studio.designer,
    subject: view.versions,
    keywords: [],
    language: edition.language.tag,
    direction: settings.direction,
    paper: settings.paper,
    issued: data.issued,
    edition: 'standard',
    footer: {
      start: `${data.studio.name} · ${view.title} · ${versionLine(edition)}`,
      end: words('document.page', { page: '{page}', pages: '{pages}' }),
    },
    blocks: readMarkup(markup, { figures: new Map(), drawings: new Map() }),
  };
}

function viewOf({ edition, old, changes, affected, unaffected }: SheetOrder, prose: Prose) {
  const words = wordsOf(edition);
  const data = dataOf(edition);
  const { list } = edition.language.settings.separators;
  const corrections = changes.filter(isCorrection);
  const reworded = changes.filter((change) => !isCorrection(change));
  const parts = [...new Set(reworded.map((change) => partOf(edition, change)))];
  const why = textOf(prose, reasonsFor(data).whole);
  const contact = data.studio.contact ?? data.studio.web;
  return {
    title: words('errata.title', { title: titleOf(edition, prose) }),
    versions: words('errata.versions', {
      old,
      version: data.version,
      date: sayDate(edition.language, data.issued),
    }),
    lead: [
      ...(why === undefined ? [] : [words('errata.reason', { reason: why })]),
      words(corrections.length > 0 ? 'errata.intro' : 'errata.wordingOnly'),
    ],
    concerned: [
      ...versions(affected, (said) => words('errata.affected', { versions: said }), list),
      ...versions(unaffected, (said) => words('errata.unaffected', { versions: said }), list),
    ],
    groups: groupsOf(edition, corrections, prose),
    reworded: parts.length === 0 ? '' : words('errata.reworded', { parts: parts.join(list) }),
    imprint: [
      ...(contact === undefined ? [] : [words('document.contact', { contact })]),
      data.studio.copyright,
    ].filter((line) => line !== ''),
  };
}

const versions = (all: readonly string[], say: (said: string) => string, list: string) =>
  all.length === 0 ? [] : [say(all.join(list))];

const textOf = (prose: Prose, key: string | undefined): string | undefined =>
  key === undefined ? undefined : prose.line(key);

// ---------------------------------------------------------------- what changed, part by part

function groupsOf(edition: EditionOrder, corrections: readonly Change[], prose: Prose) {
  const parts = [...new Set(corrections.map((change) => partOf(edition, change)))];
  return parts.map((title, group) => {
    const id = `part-${group + 1}`;
    return {
      id,
      title,
      entries: corrections
        .filter((change) => partOf(edition, change) === title)
        .map((change, index) => entryOf(edition, change, `${id}-${index + 1}`, prose)),
    };
  });
}

function entryOf(edition: EditionOrder, change: Change, id: string, prose: Prose) {
  const words = wordsOf(edition);
  const all = edition.checked.pattern.sizes.map((_, size) => size);
  const { line } = reasonsFor(dataOf(edition));
  const reason = change.kind === 'line' ? textOf(prose, line(change.anchor)) : undefined;
  return {
    id,
    place: placeOf(edition, change),
    sizes: sizesOf(edition, change.kind === 'text' ? all : change.sizes),
    effect: change.kind === 'line' ? effectOf(change.effect, words) : '',
    lines: linesOf(change, id, words),
    reason: reason === undefined ? '' : words('errata.reason', { reason }),
  };
}

function effectOf(effect: LineChange['effect'], words: (key: string) => string): string {
  switch (effect) {
    case 'count':
      return words('errata.countChange');
    case 'work':
      return words('errata.workChange');
    case 'label':
      return '';
    default:
      return assertNever(effect);
  }
}

/** Was and is of each line or paragraph that differs, or the one of them that there is. */
function linesOf(change: Change, id: string, words: (key: string) => string) {
  const pairs = change.kind === 'line' ? [partsOf(change)] : paragraphsOf(change);
  return pairs.flatMap(([was, is], index) => {
    const line = (label: string, end: string, { what, count }: Shown) => ({
      id: `${id}-${index + 1}-${end}`,
      label: words(`errata.${label}`),
      what,
      count,
    });
    if (!was) return is ? [line('added', 'is', is)] : [];
    if (!is) return [line('removed', 'was', was)];
    return [line('was', 'was', was), line('is', 'is', is)];
  });
}

interface Shown {
  readonly what: string;
  readonly count: string;
}
type Both = readonly [was: Shown | undefined, is: Shown | undefined];

/** Paragraphs that stayed are left out. */
function paragraphsOf({ was, is }: { readonly was: string; readonly is: string }): readonly Both[] {
  const [before, after] = [was, is].map((text) => text.split('\n').filter((each) => each !== ''));
  const itself = (text: string) => text;
  return alignLines(before ?? [], after ?? [], itself, itself)
    .filter((pair) => pair.was !== pair.is)
    .map((pair) => textsOf(pair.was ?? '', pair.is ?? ''));
}

function textsOf(was: string, is: string): Both {
  const [before, after] = markDifferences(was, is);
  const shown = (text: string, what: string) => (text === '' ? undefined : { what, count: '' });
  return [shown(was, before), shown(is, after)];
}

function partsOf({ before, after }: LineChange): Both {
  const whole = (line: LineChange['before']) =>
    line && {
      what: escapeMarkup(instructionOf(line)),
      count: escapeMarkup(line.count),
    };
  if (!before || !after) return [whole(before), whole(after)];
  const texts = [before, after].map(instructionOf);
  const [was, is] = markDifferences(texts[0] ?? '', texts[1] ?? '');
  const [wasCount, isCount] = markDifferences(before.count, after.count);
  return [
    { what: was, count: wasCount },
    { what: is, count: isCount },
  ];
}

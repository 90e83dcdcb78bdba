/**
 * What one pattern asks of a language: the stitches of its rows and charts, the names it uses, the
 * texts it refers to. Takes a checked pattern, gives findings where the language or the bundle's prose
 * has no words; walks the tree of every line once.
 */
import type { Finding } from '../findings/finding.ts';
import { finding } from '../findings/register.ts';
import type { BundleData } from '../pattern/bundle/schema.ts';
import type { Action, Line, Sentence, StitchName } from '../pattern/notation/ast.ts';
import type { CheckedPattern } from '../pattern/pattern.ts';
import type { Language } from './language.ts';
import { heldPart } from './needlework.ts';
import { namesFor } from './say-pattern.ts';
import { canSayStitch } from './stitch.ts';
import {
  isChart,
  isKnownFabric,
  isOwnYarn,
  isUnknownName,
  slugOf,
  type Names,
  type WordGroup,
} from './words.ts';

/** A name and the group of known words it belongs to, with the place that uses it. */
interface Need {
  readonly group: WordGroup | 'yarn';
  readonly name: string;
  readonly pointer: string;
}

interface Needs {
  readonly stitches: Map<StitchName, string>;
  readonly fabrics: Map<string, string>;
  readonly names: Need[];
}

export function checkNames(checked: CheckedPattern, language: Language): readonly Finding[] {
  const names = namesFor(checked, language);
  const needs = needsOf(checked);
  return [
    ...missingStitches(needs, names, language),
    ...missingNames(needs, names, language),
    ...missingProse(names, language),
  ];
}

function needsOf(checked: CheckedPattern): Needs {
  const needs: Needs = { stitches: new Map(), fabrics: new Map(), names: [] };
  for (const { piece } of checked.pieces) {
    const { data, pointer } = piece;
    needs.names.push({ group: 'word', name: data.title, pointer: `${pointer}/title` });
    for (const section of piece.sections) {
      if (section.title !== undefined) {
        needs.names.push({
          group: 'word',
          name: section.title,
          pointer: `${section.pointer}/title`,
        });
      }
      for (const written of section.lines) {
        if (written.line) needLine(written.line, written.pointer, needs);
      }
    }
  }
  for (const chart of checked.pattern.charts.values()) {
    for (const cell of chart.rows.flatMap((row) => row.cells)) {
      if (cell.stitch !== 'none') needs.stitches.set(cell.stitch, chart.pointer);
    }
  }
  needData(checked.pattern.bundle.data, needs);
  return needs;
}

function needData(data: BundleData, needs: Needs): void {
  const add = (group: WordGroup, name: string | undefined, pointer: string) => {
    if (name !== undefined) needs.names.push({ group, name, pointer });
  };
  data.measurements.forEach((each, at) =>
    add('measurement', each.name, `/measurements/${at}/name`),
  );
  data.schematic.forEach((each, at) => add('word', each.title, `/schematic/${at}/title`));
  data.needles.forEach((each, at) => add('word', each.purpose, `/needles/${at}/purpose`));
  data.yarns.forEach((yarn, at) =>
    yarn.fibres.forEach(({ fibre }, index) => add('fibre', fibre, `/yarns/${at}/fibres/${index}`)),
  );
  data.gauges.forEach((each, at) => needs.fabrics.set(each.pattern, `/gauges/${at}/pattern`));
  data.stitchPatterns.forEach((each, at) =>
    needs.fabrics.set(each.id, `/stitchPatterns/${at}/name`),
  );
}

// ---------------------------------------------------------------- lines

function needLine(line: Line, pointer: string, needs: Needs): void {
  if (line.label?.kind === 'named') {
    needs.names.push({ group: 'word', name: line.label.name, pointer });
  }
  if (line.stated?.part !== undefined) {
    needs.names.push({ group: 'word', name: line.stated.part, pointer });
  }
  for (const sentence of line.sentences) needSentence(sentence, pointer, needs);
}

function needSentence(sentence: Sentence, pointer: string, needs: Needs): void {
  const add = (group: Need['group'], name: string | undefined) => {
    if (name !== undefined) needs.names.push({ group, name, pointer });
  };
  const fabric = (name: string | undefined) => {
    if (name !== undefined) needs.fabrics.set(name, pointer);
  };
  switch (sentence.kind) {
    case 'actions':
      return needActions(sentence.actions, pointer, needs);
    case 'castOn':
      add('yarn', sentence.yarn);
      add('method', sentence.method);
      return add('withNeedle', sentence.needle);
    case 'repeatRows':
      fabric(sentence.of);
      return sentence.instead?.forEach(({ old, now }) =>
        needActions([...old, ...now], pointer, needs),
      );
    case 'workEven':
      return fabric(sentence.fabric);
    case 'atTheSameTime':
    case 'steps':
      return sentence.sentences.forEach((each) => needSentence(each, pointer, needs));
    case 'shape':
      return add('word', sentence.schedule.marker);
    case 'hold':
      return add('word', waiting(sentence.holder));
    case 'resume':
      return sentence.holders.forEach((holder) => add('word', waiting(holder)));
    case 'needle':
      return add('toNeedle', sentence.needle);
    case 'bindOffAll':
      return add('manner', sentence.method);
    case 'joinStitches':
      return sentence.parts.forEach((part) => add('word', part));
    case 'mark':
      return add('word', sentence.name);
    case 'yarn':
      return add('yarn', sentence.yarn);
    default:
      return undefined;
  }
}

/** The part that waits on a holder; a plain holder or waste yarn needs no name. */
const waiting = (holder: string): string | undefined =>
  PLAIN_HOLDERS.has(slugOf(holder)) ? undefined : heldPart(holder);

const PLAIN_HOLDERS: ReadonlySet<string> = new Set([
  'holder', 'stitch-holder', 'waste-yarn', 'spare-needle',
]); // prettier-ignore

function needActions(actions: readonly Action[], pointer: string, needs: Needs): void {
  for (const action of actions) {
    if ('actions' in action) needActions(action.actions, pointer, needs);
    if (action.kind === 'bySize')
      action.alternatives.forEach((each) => needActions(each, pointer, needs));
    if (action.kind === 'repeat') needActions(action.endingWith ?? [], pointer, needs);
    if ('stitch' in action) needs.stitches.set(action.stitch, pointer);
    if ('fabric' in action && action.fabric !== undefined)
      needs.fabrics.set(action.fabric, pointer);
    for (const need of namesOfAction(action)) needs.names.push({ ...need, pointer });
  }
}

function namesOfAction(action: Action): readonly Omit<Need, 'pointer'>[] {
  const word = (name: string | undefined) =>
    name === undefined ? [] : [{ group: 'word', name } as const];
  switch (action.kind) {
    case 'marker':
      return word(action.name);
    case 'hold':
    case 'resume':
      return word(waiting(action.holder));
    case 'pickUp':
      return word(action.from);
    case 'change':
      return word(action.marker);
    case 'workTo':
      return 'marker' in action.goal ? word(action.goal.marker) : [];
    case 'castOn':
      return action.method === undefined ? [] : [{ group: 'method', name: action.method }];
    case 'bindOff':
      return action.method === undefined ? [] : [{ group: 'manner', name: action.method }];
    case 'yarn':
      return [{ group: 'yarn', name: action.yarn }];
    default:
      return [];
  }
}

// ---------------------------------------------------------------- findings

function missingStitches(needs: Needs, { data }: Names, language: Language): readonly Finding[] {
  const own = new Set(data.stitches.map((stitch) => stitch.id));
  return [...needs.stitches]
    .filter(([stitch]) => !own.has(stitch) && !canSayStitch(language, stitch))
    .map(([stitch, pointer]) =>
      finding(
        'language/missing-term',
        { file: 'pattern.json', pointer },
        { language: language.tag, stitch },
      ),
    );
}

/** In the designer's own language a name may stand as it is written. */
function missingNames(needs: Needs, names: Names, language: Language): readonly Finding[] {
  if (language.tag === names.data.language) return [];
  const seen = new Set<string>();
  const lacking = [
    ...needs.names.filter(({ group, name }) =>
      group === 'yarn'
        ? !isOwnYarn(names, name) && isUnknownName(language, names, 'word', name)
        : isUnknownName(language, names, group, name),
    ),
    ...[...needs.fabrics]
      .filter(([name]) => !isChart(names, name) && !isKnownFabric(language, names, name))
      .map(([name, pointer]) => ({ name, pointer })),
  ];
  return lacking
    .filter(({ name }) => !seen.has(name) && seen.add(name))
    .map(({ name, pointer }) =>
      finding(
        'language/unknown-name',
        { file: 'pattern.json', pointer },
        { language: language.tag, name },
      ),
    );
}

/** Keys of prose that the bundle refers to, with title and summary. */
export function proseKeys(data: BundleData): readonly string[] {
  const keys = new Set(['title', 'summary']);
  const add = (key: string | undefined) => key !== undefined && keys.add(key);
  data.photos.forEach((photo) => [photo.alt, photo.caption].forEach(add));
  data.stitches.forEach((stitch) => add(stitch.describe));
  for (const { change, why = {} } of data.history) [change, ...Object.values(why)].forEach(add);
  for (const section of data.pieces.flatMap((piece) => piece.sections)) {
    add(section.intro);
    section.lines.forEach((line) => add(typeof line === 'string' ? undefined : line.note));
  }
  return [...keys];
}

function missingProse({ data, prose }: Names, language: Language): readonly Finding[] {
  const source = proseKeys(data);
  return source
    .filter((key) => prose?.[key] === undefined)
    .map((key) =>
      finding(
        'language/missing-prose',
        { file: `prose/${language.tag}.json`, pointer: `/${key}` },
        { language: language.tag, key },
      ),
    );
}

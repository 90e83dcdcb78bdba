/**
 * The numbers of a pattern by size: measurements against what the rows give, numbers against their
 * rules, how they grow, how motifs go round, and the count after every row of every piece. What the
 * checks hold is asked for after the page, for it takes longer.
 */
import { blocks } from '../../findings/finding.ts';
import { contextOf } from '../../pattern/checks/context.ts';
import type { CheckedPattern, LineTrace, PieceTrace } from '../../pattern/pattern.ts';
import { type Answer, page } from '../answer.ts';
import { fieldsIn } from '../numbers/fields.ts';
import { gradeCurves, measurementRows, reckonedGroups, type Telling } from '../numbers/measures.ts';
import { motifViews } from '../numbers/motif.ts';
import { NUMBER_UNITS } from '../numbers/new-number.ts';
import { anchorPlace, linePlace, numberPlace, type Use, usersOf, usesOf } from '../numbers/uses.ts';
import { languageFor, openSpoken, type Spoken } from '../names.ts';
import type { Asked, Desk } from '../desk.ts';
import type { Slip } from './findings.ts';
import { frameOf } from './frame.ts';

export const showNumbers = (desk: Desk, asked: Asked): Promise<Answer> =>
  numbersPage(desk, asked, { status: 200 });

/** `slip`: a change that was not made, told on the page, with what was typed in its field. */
export async function numbersPage(
  desk: Desk,
  { call, words, wording }: Asked,
  { status, slip }: { readonly status: number; readonly slip?: Slip },
): Promise<Answer> {
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const looked = await desk.look(name);
  const count = looked.findings.filter(blocks).length;
  const frame = {
    ...frameOf(looked, name, 'numbers', say),
    slip,
    done: call.query.has('done') ? say('done.correct') : '',
    standing: say(count === 0 ? 'findings.clear' : 'findings.blocked', { count }),
    clear: count === 0,
  };
  const { checked } = looked;
  if (!checked) return page(render('numbers', { ...frame, readable: false }), status);
  const { languages } = checked.pattern.bundle.data;
  const language = languageFor(wording.language, await desk.languages(), languages);
  const fields = fieldsIn(looked.texts, slip);
  const view = numbersView(checked, { spoken: openSpoken(checked, language), say, fields });
  const rows = [...view.measurements, ...view.groups.flatMap((group) => group.rows)];
  // What came back into its own field is not told twice.
  if (slip && rows.some(({ returned }) => returned)) frame.slip = { ...slip, typed: '' };
  return page(render('numbers', { ...frame, ...view }), status);
}

function numbersView(checked: CheckedPattern, { spoken, say, fields }: Omit<Telling, 'uses'>) {
  const context = contextOf(checked.pattern, checked.pieces);
  const uses = usesOf(context.data, spoken, say);
  const telling = { uses, spoken, say, fields };
  const measurements = measurementRows(context, telling);
  const groups = reckonedGroups(context, telling);
  const names = new Map(
    [...measurements, ...groups.flatMap(({ rows }) => rows)].map(({ place, name }) => [
      place,
      name,
    ]),
  );
  const users = usersOf(uses, (key) => names.get(numberPlace(key)));
  return {
    readable: true,
    sizes: checked.pattern.sizes,
    units: NUMBER_UNITS,
    measurements,
    groups,
    curves: gradeCurves(context, telling),
    motifs: motifViews(context, telling),
    pieces: checked.pieces.map((trace) => pieceView(trace, spoken, users)),
  };
}

const pieceView = (
  { piece, lines }: PieceTrace,
  spoken: Spoken,
  users: ReadonlyMap<string, readonly Use[]>,
) => ({
  title: spoken.piece(piece.data.title),
  place: anchorPlace(piece.data.id),
  lines: lines.map((line, row) => {
    const place = linePlace(piece.data.id, line.line.id, row);
    const here = users.get(place) ?? [];
    return { text: line.line.text, place, cells: cellsOf(line), users: here };
  }),
});

const cellsOf = ({ outcomes }: LineTrace): readonly (number | string)[] =>
  outcomes.map(({ after, skipped }) => (skipped ? '–' : after));

export async function showPins(desk: Desk, { words, wording }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  const { total, pinned, share, unpinned, free } = await desk.work.ask('pins', { name });
  const view = {
    address: `/patterns/${encodeURIComponent(name)}`,
    said: wording.say('pins.share', {
      total,
      pinned,
      free: free.length,
      percent: Math.floor(share * 1000) / 10,
    }),
    // Every one is marked in the tables of the page; the first of them are listed.
    loose: unpinned.map(({ where, size = '' }) => ({ pointer: where.pointer, size })),
    unpinned: unpinned.slice(0, MOST_PINS).map((each) => ({
      place: each.where.label ?? each.where.pointer,
      value: each.value,
      size: each.size ?? '',
      missed: wording.list(each.missed),
    })),
    more: Math.max(0, unpinned.length - MOST_PINS),
  };
  return page(wording.render('pins', view));
}

/** Numbers that nothing holds are looked at by eye; more than these nobody looks at. */
const MOST_PINS = 60;

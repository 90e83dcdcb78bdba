/**
 * Papers out and in: the numbers as a spreadsheet, the texts of each language for its translator. What
 * comes in is shown as a list of changes first, and written only when somebody says so.
 */
import { Fault } from '../../base/fault.ts';
import { blocks } from '../../findings/finding.ts';
import { wordingOf } from '../../findings/register.ts';
import { type Answer, bytes, download, page, seeOther } from '../answer.ts';
import { type Replacement, tagOf } from '../../shelf/shelf.ts';
import { type Asked, type Desk, fieldOf } from '../desk.ts';
import type { Paper } from '../work/papers.ts';
import { frameOf } from './frame.ts';

const SHEETS = {
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  csv: 'text/csv; charset=utf-8',
} as const;
/** Changes listed on one page; the rest are counted. */
const MOST_LINES = 400;

export async function sendNumbers(desk: Desk, asked: Asked): Promise<Answer> {
  const kind = asked.words['kind'] === 'csv' ? 'csv' : 'xlsx';
  const name = asked.words['name'] ?? '';
  const sheet = await desk.work.ask('numbersOut', { name, kind });
  return download(sheet, SHEETS[kind], `${name}-numbers.${kind}`);
}

export async function showTranslations(desk: Desk, asked: Asked): Promise<Answer> {
  const { words, wording } = asked;
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const looked = await desk.look(name);
  const frame = frameOf(looked, name, 'translations', say);
  const survey = await desk.work.ask('survey', { name }).catch((error: unknown) => {
    if (error instanceof Fault && error.kind === 'input') return undefined;
    throw error;
  });
  const known = await desk.languages();
  const offered = new Set(survey?.map(({ tag }) => tag));
  const view = {
    ...frame,
    readable: survey !== undefined,
    rows: (survey ?? []).map((each) => ({
      ...each,
      name: known.get(each.tag)?.settings.name ?? each.tag,
      roleWord: say(`translations.${each.role.replace(' ', '-')}`),
      translation: each.role !== 'source',
      open: each.outdated + each.missing > 0,
      ties: each.outdated + each.untied > 0,
    })),
    others: [...known]
      .filter(([tag]) => !offered.has(tag))
      .map(([tag, { settings }]) => ({ tag, name: settings.name })),
  };
  return page(render('translations', view));
}

export async function sendTexts(desk: Desk, asked: Asked): Promise<Answer> {
  const { call, words } = asked;
  const tag = words['tag'] ?? call.query.get('tag') ?? '';
  const kind = words['kind'] === 'tbx' ? 'tbx' : 'xlf';
  const all = call.query.has('all');
  const bundle = words['name'] ?? '';
  const file = await desk.work.ask('textsOut', { name: bundle, tag, kind, all });
  if (!file) throw new Fault('missing', `nothing is left to translate into ${tag}`, { place: tag });
  const name = `${bundle}-${tag}.${kind}`;
  const { headers } = download(file, '', name);
  return bytes(file, kind === 'tbx' ? 'application/xml' : 'application/xliff+xml', {
    'content-disposition': headers['content-disposition'] ?? '',
  });
}

// ---------------------------------------------------------------- in

export const takeNumbers = async (desk: Desk, asked: Asked): Promise<Answer> =>
  proposePaper(desk, asked, 'numbers', await paperOf(asked));

export const takeTexts = async (desk: Desk, asked: Asked): Promise<Answer> =>
  proposePaper(desk, asked, 'translations', await paperOf(asked));

async function paperOf({ call }: Asked): Promise<Paper> {
  const given = (await call.form()).get('paper');
  if (given === null || typeof given === 'string' || given.size === 0)
    throw new Fault('input', 'no file came with the form', { remedy: 'go back and choose one' });
  return { bytes: new Uint8Array(await given.arrayBuffer()), name: given.name };
}

/** What a paper changes in the pattern that the address names, to be agreed to. */
export async function proposePaper(
  desk: Desk,
  asked: Asked,
  part: 'numbers' | 'translations',
  paper: Paper,
): Promise<Answer> {
  const { words, wording } = asked;
  const { say, saying } = wording;
  const name = words['name'] ?? '';
  const job = part === 'numbers' ? 'numbersIn' : 'textsIn';
  const brought = await desk.work.ask(job, { name, paper });
  const { file, before, after, lines, findings, madeFrom } = brought;
  const said = `${paper.name}: ${say('papers.brings', { count: lines.length })}`;
  const tag = before && tagOf(before);
  const replacement = after && { file, tag, bytes: after, said };
  const [refused, remarks] = [
    findings.filter(blocks),
    findings.filter((each) => !blocks(each)),
  ].map((each) => each.map((one) => wordingOf(one, saying).headline));
  const title = paper.name;
  const made = madeFrom ? [say('papers.madeFrom', { pattern: madeFrom.id, version: madeFrom.version })] : []; // prettier-ignore
  const told = { part, title, replacement, refused, remarks: [...made, ...(remarks ?? [])] };
  return proposalPage(desk, asked, { ...told, lines: lines.map(wording.line) });
}

/** Changes of a file that wait for a yes. */
export interface Proposal {
  readonly part: 'numbers' | 'translations';
  readonly title: string;
  /** Undefined where nothing is to be written. */
  readonly replacement: Replacement | undefined;
  /** Each change in words. */
  readonly lines: readonly string[];
  readonly refused?: readonly string[] | undefined;
  readonly remarks?: readonly string[] | undefined;
  /** What is asked; else what is asked of a file that came in. */
  readonly lead?: string;
  /** The page they were made on, where it is another than the part's own. */
  readonly back?: string;
}

export async function proposalPage(
  desk: Desk,
  { words, wording }: Asked,
  { part, title, replacement, lines, refused = [], remarks = [], lead, back = '' }: Proposal,
): Promise<Answer> {
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const waits = replacement ? await desk.waiting.put({ pattern: name, replacement }) : '';
  const frame = frameOf(await desk.look(name), name, part, say);
  const view = {
    ...frame,
    file: title,
    waits,
    back,
    leave: back === '' ? `${String(frame['address'])}/${part}` : back,
    lead: waits === '' ? say('papers.nothing') : (lead ?? say('papers.ask')),
    refused,
    remarks,
    lines: lines.slice(0, MOST_LINES),
    more: Math.max(0, lines.length - MOST_LINES),
  };
  return page(render('papers', view), refused.length > 0 ? 422 : 200);
}

/** The page of a rule of this pattern, with a choice in its address. */
const isChoice = (back: string, address: string): boolean =>
  back.startsWith(`${address}/rule?`) && /^[\w/?&=%+.~*!'()-]+$/.test(back);

export async function confirmPaper(desk: Desk, asked: Asked): Promise<Answer> {
  const { call, words } = asked;
  const name = words['name'] ?? '';
  const form = await call.form();
  const address = `/patterns/${encodeURIComponent(name)}`;
  const back = fieldOf(form, 'back');
  try {
    const replacement = await desk.waiting.take(fieldOf(form, 'waits'), name);
    await desk.shelf.replace(name, replacement);
  } catch (error) {
    // A choice made on a page is in its address: the page shows what it does to the pattern as it is now.
    const late = error instanceof Fault && (error.kind === 'conflict' || error.kind === 'missing');
    if (!late || !isChoice(back, address)) throw error;
    return seeOther(`${back}&late=1`);
  }
  return seeOther(`${address}?done=papers`);
}

/**
 * Papers out and in: the numbers as a spreadsheet, the texts of each language for its translator. What
 * comes in is shown as a list of changes first, and written only when somebody says so.
 */
import { Fault } from '../../base/fault.ts';
import { blocks } from '../../findings/finding.ts';
import { wordingOf } from '../../findings/register.ts';
import { type Answer, bytes, download, page, seeOther } from '../answer.ts';
import { tagOf } from '../../shelf/shelf.ts';
import { type Asked, type Desk, fieldOf } from '../desk.ts';
import type { Brought, Paper } from '../work/papers.ts';
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

export const takeNumbers = (desk: Desk, asked: Asked): Promise<Answer> =>
  propose(desk, asked, 'numbers', (name, paper) => desk.work.ask('numbersIn', { name, paper }));

export const takeTexts = (desk: Desk, asked: Asked): Promise<Answer> =>
  propose(desk, asked, 'translations', (name, paper) => desk.work.ask('textsIn', { name, paper }));

async function propose(
  desk: Desk,
  asked: Asked,
  part: 'numbers' | 'translations',
  read: (name: string, paper: Paper) => Promise<Brought>,
): Promise<Answer> {
  const { call, words, wording } = asked;
  const { say, saying, render } = wording;
  const name = words['name'] ?? '';
  const given = (await call.form()).get('paper');
  if (given === null || typeof given === 'string' || given.size === 0)
    throw new Fault('input', 'no file came with the form', { remedy: 'go back and choose one' });
  const paper = { bytes: new Uint8Array(await given.arrayBuffer()), name: given.name };
  const brought = await read(name, paper);
  const { file, before, after, lines, findings } = brought;
  const said = `${given.name}: ${say('papers.brings', { count: lines.length })}`;
  const tag = before && tagOf(before);
  const replacement = after && { file, tag, bytes: after, said };
  const waits = replacement ? await desk.waiting.put({ pattern: name, replacement }) : '';
  const view = {
    ...frameOf(await desk.look(name), name, part, say),
    part,
    file: given.name,
    waits,
    lead: say(waits === '' ? 'papers.nothing' : 'papers.ask'),
    refused: findings.filter(blocks).map((each) => wordingOf(each, saying).headline),
    remarks: findings
      .filter((each) => !blocks(each))
      .map((each) => wordingOf(each, saying).headline),
    lines: lines.slice(0, MOST_LINES),
    more: Math.max(0, lines.length - MOST_LINES),
  };
  return page(render('papers', view), findings.some(blocks) ? 422 : 200);
}

export async function confirmPaper(desk: Desk, asked: Asked): Promise<Answer> {
  const { call, words } = asked;
  const name = words['name'] ?? '';
  const replacement = await desk.waiting.take(fieldOf(await call.form(), 'waits'), name);
  await desk.shelf.replace(name, replacement);
  return seeOther(`/patterns/${encodeURIComponent(name)}?done=papers`);
}

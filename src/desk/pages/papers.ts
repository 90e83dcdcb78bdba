/**
 * Papers out and in: the numbers as a spreadsheet, the texts of each language for its translator. What
 * comes in is shown as a list of changes first, and written only when somebody says so.
 */
import { Fault } from '../../base/fault.ts';
import { blocks } from '../../findings/finding.ts';
import { wordingOf } from '../../findings/register.ts';
import { type Answer, bytes, download, page, seeOther } from '../answer.ts';
import { replaceFile } from '../correct.ts';
import { type Asked, type Desk, fieldOf } from '../routes.ts';
import { patternFolder } from '../shelf.ts';
import type { Brought, Paper } from '../work/papers.ts';
import { frameOf } from './frame.ts';

const SHEETS = {
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  csv: 'text/csv; charset=utf-8',
} as const;
/** Changes listed on one page; the rest are counted. */
const MOST_LINES = 400;

const folderOf = (desk: Desk, { words }: Asked): Promise<string> =>
  patternFolder(desk.folder, words['name'] ?? '');

export async function sendNumbers(desk: Desk, asked: Asked): Promise<Answer> {
  const kind = asked.words['kind'] === 'csv' ? 'csv' : 'xlsx';
  const sheet = await desk.crew.ask('numbersOut', { folder: await folderOf(desk, asked), kind });
  return download(sheet, SHEETS[kind], `${asked.words['name'] ?? ''}-numbers.${kind}`);
}

export async function showTranslations(desk: Desk, asked: Asked): Promise<Answer> {
  const { words, wording } = asked;
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const looked = await desk.look(await folderOf(desk, asked));
  const frame = frameOf(looked, name, 'translations', say);
  const survey = await desk.crew
    .ask('survey', { folder: await folderOf(desk, asked) })
    .catch((error: unknown) => {
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
  const file = await desk.crew.ask('textsOut', { folder: await folderOf(desk, asked), tag, kind, all }); // prettier-ignore
  if (!file) throw new Fault('missing', `nothing is left to translate into ${tag}`, { place: tag });
  const name = `${words['name'] ?? ''}-${tag}.${kind}`;
  const { headers } = download(file, '', name);
  return bytes(file, kind === 'tbx' ? 'application/xml' : 'application/xliff+xml', {
    'content-disposition': headers['content-disposition'] ?? '',
  });
}

// ---------------------------------------------------------------- in

export const takeNumbers = (desk: Desk, asked: Asked): Promise<Answer> =>
  propose(desk, asked, 'numbers', (folder, paper) => desk.crew.ask('numbersIn', { folder, paper }));

export const takeTexts = (desk: Desk, asked: Asked): Promise<Answer> =>
  propose(desk, asked, 'translations', (folder, paper) =>
    desk.crew.ask('textsIn', { folder, paper }),
  );

async function propose(
  desk: Desk,
  asked: Asked,
  part: 'numbers' | 'translations',
  read: (folder: string, paper: Paper) => Promise<Brought>,
): Promise<Answer> {
  const { call, words, wording } = asked;
  const { say, saying, render } = wording;
  const name = words['name'] ?? '';
  const folder = await folderOf(desk, asked);
  const given = (await call.form()).get('paper');
  if (given === null || typeof given === 'string' || given.size === 0)
    throw new Fault('input', 'no file came with the form', { remedy: 'go back and choose one' });
  const paper = { bytes: new Uint8Array(await given.arrayBuffer()), name: given.name };
  const brought = await read(folder, paper);
  const { lines, findings, after } = brought;
  const said = `${given.name}: ${say('papers.brings', { count: lines.length })}`;
  const token = after === undefined ? '' : desk.waiting.put({ pattern: name, brought, said });
  const view = {
    ...frameOf(await desk.look(folder), name, part, say),
    part,
    file: given.name,
    token,
    lead: say(token === '' ? 'papers.nothing' : 'papers.ask'),
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
  const folder = await folderOf(desk, asked);
  const { brought, said } = desk.waiting.take(fieldOf(await call.form(), 'token'), name);
  const { file, before, after } = brought;
  if (after) await replaceFile(folder, { file, before, bytes: after, said }, desk.now());
  return seeOther(`/patterns/${encodeURIComponent(name)}?done=papers`);
}

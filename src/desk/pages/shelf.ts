/** The shelf as a page: what lies there, how it stands, and the two ways to put something on it. */
import { zipSync } from 'fflate';
import { Fault } from '../../base/fault.ts';
import { BUNDLE_LIMITS } from '../../base/limits.ts';
import { blocks } from '../../findings/finding.ts';
import { ZIP_TIME } from '../../release/zip.ts';
import { type Answer, bytes, download, json, page, seeOther } from '../answer.ts';
import { fieldOf, type Asked, type Desk, type UploadForm } from '../desk.ts';
import type { Wording } from '../wording.ts';
import { isPaper, PAPER_ENDINGS } from '../work/papers.ts';
import { awayView } from './away.ts';
import { titleOf } from './frame.ts';
import { takePaper } from './handed-paper.ts';
import { releasedElsewhere } from './released.ts';

export async function showShelf(desk: Desk, asked: Asked): Promise<Answer> {
  const { wording } = asked;
  const names = await desk.shelf.names();
  const waiting = await waitingAmong(desk, names);
  const patterns = await Promise.all(
    names.map(async (name) =>
      waiting.has(name) ? laterOf(name) : standingOf(desk, name, wording),
    ),
  );
  const starters = (await desk.shelf.starters()).map((name) => ({
    name,
    title: name.replaceAll('-', ' '),
  }));
  const title = wording.say('shelf.title');
  const { arrivals } = desk;
  const folder = arrivals.kind === 'here' ? arrivals.folder : '';
  const upload = arrivals.kind === 'elsewhere' ? formView(await arrivals.open()) : undefined;
  const elsewhere = await releasedElsewhere(desk, new Set([...names, ...patterns.map(idOf)]));
  const view = {
    ...(await awayView(desk, asked)),
    title,
    folder,
    upload,
    patterns,
    starters,
    elsewhere,
    most: MOST,
    papers: PAPER_ENDINGS.join(','),
  };
  return page(wording.render('shelf', view));
}

/** Patterns looked at before the page comes; on a long shelf the others follow after it. */
const LOOKED_AT = 4;

async function waitingAmong(desk: Desk, names: readonly string[]): Promise<ReadonlySet<string>> {
  const unknown: string[] = [];
  for (const name of names)
    if ((await desk.look.known(name).catch(() => undefined)) === undefined) unknown.push(name);
  return new Set(unknown.slice(LOOKED_AT));
}

/** More languages than these are counted, not named. */
const LANGUAGES_NAMED = 6;

const languagesOf = (languages: readonly string[], { say, list }: Wording): string =>
  languages.length > LANGUAGES_NAMED
    ? say('shelf.languages', { count: languages.length })
    : list(languages);

/** What is refused before it is sent: a zip that is too large, a photograph in a folder. */
const MOST = { zip: BUNDLE_LIMITS.zipBytes, file: BUNDLE_LIMITS.fileBytes };

const addressOf = (name: string): string => `/patterns/${encodeURIComponent(name)}`;

/** One pattern of the page, as its template takes it. */
interface Entry extends Readonly<Record<string, unknown>> {
  readonly name: string;
  /** What the pattern calls itself, where it was read. */
  readonly id?: string | undefined;
}

/** A second copy has its number behind the name; whether it is one is not known before it was read. */
const idOf = ({ name, id = name.replace(/-\d+$/, '') }: Entry): string => id;

const laterOf = (name: string): Entry => ({
  name,
  address: addressOf(name),
  title: name,
  later: true,
});

export async function showStanding(desk: Desk, { words, wording }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  await desk.shelf.state(name);
  return page(wording.render('standing', { pattern: await standingOf(desk, name, wording) }));
}

async function standingOf(desk: Desk, name: string, wording: Wording): Promise<Entry> {
  const { say, fault } = wording;
  const address = addressOf(name);
  try {
    const looked = await desk.look(name);
    const count = looked.findings.filter(blocks).length;
    const standing = count === 0 ? say('shelf.clear') : say('shelf.blocked', { count });
    const { data } = looked.bundle ?? {};
    const facts = data
      ? say('shelf.facts', {
          version: data.version,
          sizes: data.sizes.length,
          languages: languagesOf(data.languages, wording),
        })
      : '';
    const title = titleOf(looked, name);
    const cover = data ? `${address}/cover?of=${looked.bundle?.hash.slice(0, 16) ?? ''}` : '';
    return {
      name,
      id: data?.id,
      address,
      title,
      standing,
      clear: count === 0,
      facts,
      cover,
      later: false,
    };
  } catch (error) {
    const standing = fault(error instanceof Error ? error : {}).message;
    return {
      name,
      address,
      title: name,
      standing,
      clear: false,
      facts: '',
      cover: '',
      later: false,
    };
  }
}

export async function begin(desk: Desk, { call }: Asked): Promise<Answer> {
  const starter = fieldOf(await call.form(), 'starter');
  const name = await desk.shelf.begin(starter);
  return seeOther(`/patterns/${encodeURIComponent(name)}`);
}

/** A form that leads past the desk, straight to where the file is kept. */
const formView = ({ url, fields }: UploadForm) => ({
  url,
  fields: Object.entries(fields).map(([name, value]) => ({ name, value })),
});

/** A fresh form, for a page that lay open for long. */
export async function renewHandIn(desk: Desk, { call }: Asked): Promise<Answer> {
  if (desk.arrivals.kind === 'here') throw noSuchPage(call.path);
  return json(await desk.arrivals.open());
}

export async function takeUploaded(desk: Desk, { call, words }: Asked): Promise<Answer> {
  if (desk.arrivals.kind === 'here') throw noSuchPage(call.path);
  const name = await desk.arrivals.takeUpload(words['upload'] ?? '');
  return seeOther(`/patterns/${encodeURIComponent(name)}`);
}

const noSuchPage = (place: string): Fault =>
  new Fault('missing', 'there is no such page', { place });

/** A bundle, or a paper of one that lies there; where bundles go straight to the store, papers alone. */
export async function handIn(desk: Desk, asked: Asked): Promise<Answer> {
  const { call } = asked;
  const form = await call.form();
  const files = [...form.getAll('zip'), ...form.getAll('paper'), ...form.getAll('files')].flatMap(
    (each) => (typeof each === 'string' || each.name === '' ? [] : [each]),
  );
  const [first] = files;
  if (first && files.length === 1 && isPaper(first.name)) return takePaper(desk, asked, first);
  if (first && files.every(({ name }) => isPaper(name)))
    throw new Fault('input', 'several files came with the form', {
      place: first.name,
      remedy: 'hand in one spreadsheet or translation at a time',
    });
  if (desk.arrivals.kind === 'elsewhere') throw noSuchPage(call.path);
  const name = await desk.arrivals.take(files);
  return seeOther(`/patterns/${encodeURIComponent(name)}`);
}

/** Kept by the browser for as long as the address names the same pattern. */
export async function sendCover(desk: Desk, { words }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  const cover = await desk.work.ask('cover', { name });
  if (!cover) throw new Fault('missing', 'this pattern has no photograph yet', { place: name });
  return bytes(cover.bytes, cover.mediaType, { 'cache-control': 'private, max-age=604800' });
}

export async function sendBundle(desk: Desk, { words }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  const files = await desk.shelf.files(name);
  const zip = zipSync(Object.fromEntries(files), { mtime: ZIP_TIME });
  return download(zip, 'application/zip', `${name}.zip`);
}

/** Runs of one pattern and what they released: start, watch, cancel, and the files to hand over. */
import { type Answer, events, page, seeOther } from '../answer.ts';
import type { Asked, Desk } from '../routes.ts';
import type { Run } from '../runs.ts';
import { patternFolder } from '../shelf.ts';
import { frameOf } from './frame.ts';

export async function showRelease(desk: Desk, { words, wording }: Asked): Promise<Answer> {
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const looked = await desk.look(await patternFolder(desk.folder, name));
  const pattern = looked.bundle?.data.id;
  const runs = desk.runs.of(name).slice(0, 20);
  const working = runs.find(({ state }) => state === 'working');
  const versions = pattern === undefined ? [] : await desk.releases.versions(pattern);
  const releases: object[] = [];
  for (const version of versions)
    if (pattern !== undefined) releases.push(await releaseView(desk, pattern, version));
  const view = {
    ...frameOf(looked, name, 'release', say),
    working,
    runs: runs.map((run) => ({ ...textsOf(run), stateWord: say(`state.${run.state}`) })),
    releases,
    readable: pattern !== undefined,
  };
  return page(render('release', view));
}

const textsOf = ({ run, started, version = '', message = '', remedy = '', made = 0, reused = 0 }: Run) => ({
  run, started, version, message, remedy, made, reused,
}); // prettier-ignore

async function releaseView(desk: Desk, pattern: string, version: string): Promise<object> {
  const manifest = await desk.releases.manifest(pattern, version);
  const base = `/files/${pattern}/${version}`;
  const of = (...roles: readonly string[]) =>
    manifest.files
      .filter((file) => roles.includes(file.role))
      .map(({ path, language = '', edition = '', sizeBytes }) => ({
        address: `${base}/${path}`, path, language, edition, kilobytes: Math.ceil(sizeBytes / 1000),
      })); // prettier-ignore
  const listings: object[] = [];
  for (const file of of('listing')) {
    const { bytes } = await desk.releases.file(manifest, file.path);
    const id = `text-${version}-${file.path}`.replaceAll(/[^\w-]/g, '-');
    listings.push({ ...file, id, text: new TextDecoder().decode(bytes) });
  }
  const zip = `${base}.zip`;
  return {
    version,
    issued: manifest.issued,
    documents: of('document'),
    listings,
    pictures: of('picture'),
    more: of('errata', 'page', 'shop'),
    zip,
  };
}

export async function startRun(desk: Desk, { words }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  await patternFolder(desk.folder, name);
  await desk.runs.start(name);
  return seeOther(`/patterns/${encodeURIComponent(name)}/release`);
}

export async function cancelRun(desk: Desk, { words }: Asked): Promise<Answer> {
  const { run, source } = desk.runs.get(words['run'] ?? '');
  desk.runs.cancel(run);
  return seeOther(`/patterns/${encodeURIComponent(source)}/release`);
}

export const tellRun = async (desk: Desk, { words }: Asked): Promise<Answer> =>
  events(desk.runs.listen(words['run'] ?? ''));

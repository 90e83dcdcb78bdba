/**
 * Papers for people: the technical editor's packet, copies for test knitters, and the sheets they sent
 * back. Takes what a form names; gives zips to keep, and what the sheets say together as a page.
 */
import { zipSync } from 'fflate';
import { Fault } from '../../base/fault.ts';
import type { PacketFile } from '../../packet/files.ts';
import { ZIP_TIME } from '../../release/zip.ts';
import { type Answer, download, page } from '../answer.ts';
import type { Asked, Desk } from '../desk.ts';
import { resultsView } from '../results-view.ts';
import type { Paper } from '../work/papers.ts';
import { frameOf } from './frame.ts';

const zipOf = (files: readonly PacketFile[], name: string): Answer => {
  const entries = Object.fromEntries(files.map((each) => [each.name, each.bytes]));
  return download(zipSync(entries, { mtime: ZIP_TIME }), 'application/zip', `${name}.zip`);
};

/** With the record of the packet before it, where the form brings one, to tell what changed since. */
export async function sendEditorPacket(desk: Desk, { call, words }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  const [since] = call.method === 'POST' ? await papersIn(await call.form(), 'since') : [];
  const files = await desk.work.ask('editorPacket', { name, ...(since && { since }) });
  return zipOf(files, `${name}-editor`);
}

export async function sendTestPacket(desk: Desk, { call, words }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  const tag = call.query.get('language') ?? '';
  const sizes = call.query.getAll('size');
  const files = await desk.work.ask('testPacket', { name, tag, sizes });
  return zipOf(files, `${name}-test-${tag}`);
}

export async function takeResults(desk: Desk, { call, words, wording }: Asked): Promise<Answer> {
  const { say, fault, render } = wording;
  const name = words['name'] ?? '';
  const papers = await papersIn(await call.form(), 'sheets');
  if (papers.length === 0)
    throw new Fault('input', 'no file came with the form', { remedy: 'go back and choose one' });
  const { results, refused } = await desk.work.ask('results', { name, papers });
  const view = {
    ...frameOf(await desk.look(name), name, 'release', say),
    refused: refused.map(({ file, place, says, remedy }) => ({
      file,
      ...fault({ message: says, remedy, place }),
    })),
    results: results && resultsView(results, say),
  };
  return page(render('results', view), results ? 200 : 422);
}

async function papersIn(form: FormData, field: string): Promise<readonly Paper[]> {
  const given = form.getAll(field).filter((each) => typeof each !== 'string');
  return Promise.all(
    given
      .filter(({ size }) => size > 0)
      .map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })),
  );
}

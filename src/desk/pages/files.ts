/** Files of a release, one by one and all together. */
import { zipSync } from 'fflate';
import { madeName } from '../../release/made.ts';
import type { Manifest } from '../../release/manifest.ts';
import { isShown } from '../../release/shown.ts';
import { ZIP_TIME } from '../../release/zip.ts';
import { type Answer, bytes, download, page, seeOther } from '../answer.ts';
import type { Asked, Desk } from '../desk.ts';

const releaseOf = (desk: Desk, { words }: Asked) =>
  desk.releases.manifest(words['pattern'] ?? '', words['version'] ?? '');

export async function sendFile(desk: Desk, asked: Asked): Promise<Answer> {
  const manifest = await releaseOf(desk, asked);
  const wanted = asked.words['path'] ?? '';
  const link = await desk.releases.link(manifest, wanted);
  if (link !== undefined) return seeOther(link);
  const found = await desk.releases.file(manifest, wanted);
  const { mediaType, path } = found.file;
  const plain = mediaType.split(';')[0] ?? '';
  if (!isShown(mediaType))
    return download(found.bytes, 'application/octet-stream', path.split('/').at(-1) ?? 'file');
  return bytes(found.bytes, plain === 'text/plain' ? 'text/plain; charset=utf-8' : plain);
}

export async function sendAll(desk: Desk, asked: Asked): Promise<Answer> {
  const manifest = await releaseOf(desk, asked);
  const link = await desk.releases.linkAll(manifest);
  if (link === 'later') return awaitedZip(manifest, asked);
  if (link !== undefined) return seeOther(link.href);
  const files: Record<string, Uint8Array> = {};
  for (const { path } of manifest.files)
    files[path] = (await desk.releases.file(manifest, path)).bytes;
  const zip = zipSync(files, { level: 0, mtime: ZIP_TIME });
  return download(zip, 'application/zip', `${manifest.pattern}-${madeName(manifest)}.zip`);
}

/** Made elsewhere: a page that asks for it again, by itself or by a link. */
function awaitedZip({ pattern, ...made }: Manifest, { wording: { say, render } }: Asked): Answer {
  const name = madeName(made);
  const view = {
    title: say('zip.title'),
    made: `${pattern} ${name}`,
    address: `/files/${pattern}/${name}.zip`,
  };
  return page(render('zip', view), 202);
}

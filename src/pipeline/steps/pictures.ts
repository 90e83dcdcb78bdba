/**
 * Third step: every photograph in the print size and the shop sizes, once per content and never per
 * language. What was made for an earlier version of the pattern is used again. All sizes of a photograph
 * are asked for together; the room of pictures works on as many as memory allows.
 */
import { obtain } from '../../release/artifacts.ts';
import { keepPictures, recallPhoto, recallPhotoHashes } from '../claims.ts';
import type { PictureRecord, PicturesInput, PicturesOutput } from '../payloads.ts';
import type { Ports } from '../ports.ts';

export async function pictures(input: PicturesInput, ports: Ports): Promise<PicturesOutput> {
  const records: PictureRecord[] = [];
  let reusedCount = 0;
  for (const [file, photo] of await recallPhotoHashes(ports.work, input.bundle)) {
    const sizes = ports.rooms.pictureSizes.map((size) => prepare(ports, file, photo, size));
    for (const { record, reused } of await Promise.all(sizes)) {
      records.push(record);
      if (reused) reusedCount += 1;
    }
  }
  await keepPictures(ports.work, input.run, records);
  return { made: records.length - reusedCount, reused: reusedCount };
}

async function prepare(
  ports: Ports,
  file: string,
  photo: string,
  size: string,
): Promise<{ readonly record: PictureRecord; readonly reused: boolean }> {
  const { rooms, releases } = ports;
  const inputs = { step: 'picture', program: rooms.fingerprint, photo, size };
  const { artifact, reused } = await obtain(releases, inputs, async () => {
    const bytes = await recallPhoto(ports.work, photo);
    const { widthPixels, heightPixels, ...made } = await rooms.preparePicture(bytes, size);
    return { ...made, facts: { widthPixels, heightPixels } };
  });
  ports.progress({ step: 'pictures', state: reused ? 'reused' : 'made', picture: file });
  const record = {
    file,
    size,
    artifact: artifact.hash,
    sizeBytes: artifact.sizeBytes,
    mediaType: artifact.mediaType,
    widthPixels: Number(artifact.facts['widthPixels']),
    heightPixels: Number(artifact.facts['heightPixels']),
  };
  return { record, reused };
}

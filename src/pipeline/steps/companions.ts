/**
 * What the last step stages beside the documents: pictures, the record of the bundle, listings, pages,
 * correction sheets, and parcels of all of it. Takes what the steps before left; gives files under their
 * final names, each made once and found again after that.
 */
import { Fault } from '../../base/fault.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { obtain } from '../../release/artifacts.ts';
import type { Companion, CompanionOrder } from '../../release/companions.ts';
import { artifactKey, extensionOf } from '../../release/keys.ts';
import type { ReleasedFile } from '../../release/manifest.ts';
import { RECORD_PATH, writeRecord } from '../../release/record.ts';
import { recallPhotoHashes, recallPictures } from '../claims.ts';
import { type Follows, recallEarlier } from '../follows.ts';
import type { PictureRecord, StageInput } from '../payloads.ts';
import type { Ports } from '../ports.ts';
import { PRINT_SIZE } from '../ports.ts';
import { languagesOf, stageOf } from './check.ts';
import { plainName } from './compose.ts';

export interface Staged {
  readonly files: readonly ReleasedFile[];
  readonly made: number;
  readonly reused: number;
}

export async function stageCompanions(
  input: StageInput,
  checked: CheckedPattern,
  { earlier, history }: Follows,
  documents: readonly ReleasedFile[],
  ports: Ports,
): Promise<Staged> {
  const { data } = checked.pattern.bundle;
  const stage = stageOf(input.settings);
  const pictures = await recallPictures(ports.work, input.run);
  const order: CompanionOrder = {
    checked,
    languages: languagesOf(data, input.settings),
    earlier: await recallEarlier(ports, data.id, earlier),
    history,
    pictures,
    documents,
    name: `${data.id}-${data.version}`,
    ...(stage !== 'sale' && { stage }),
    fetch: (artifact, mediaType) => fetchArtifact(ports, artifact, mediaType),
  };
  const companions = [await recordOf(input, checked, ports), ...ports.rooms.companions(order)];
  const texts = await obtainAll(companions, ports);
  const files = [...pictureFiles(pictures), ...texts.files];
  // Only what is for sale goes to shops.
  const parcels = stage === 'sale' ? ports.rooms.parcels(order, [...documents, ...files]) : [];
  const packed = await obtainAll(parcels, ports);
  return {
    files: [...files, ...packed.files],
    made: texts.made + packed.made,
    reused: texts.reused + packed.reused,
  };
}

async function obtainAll(companions: readonly Companion[], ports: Ports): Promise<Staged> {
  const files: ReleasedFile[] = [];
  let reusedCount = 0;
  for (const companion of companions) {
    const { path, mediaType, role, language, inputs } = companion;
    const { artifact, reused } = await obtain(ports.releases, { mediaType, inputs }, async () => ({
      bytes: await companion.make(),
      mediaType,
    }));
    if (reused) reusedCount += 1;
    files.push({
      path,
      artifact: artifact.hash,
      sizeBytes: artifact.sizeBytes,
      mediaType,
      role,
      ...(language !== undefined && { language }),
    });
  }
  return { files, made: files.length - reusedCount, reused: reusedCount };
}

async function fetchArtifact(
  { releases }: Ports,
  artifact: string,
  mediaType: string,
): Promise<Uint8Array> {
  const key = artifactKey(artifact, mediaType);
  const stored = await releases.get(key);
  if (stored) return stored.bytes;
  throw new Fault('store', `${key} is missing`, { place: key, retryable: true });
}

/** The bundle itself, so that a later version can be compared with this one. */
async function recordOf(
  input: StageInput,
  checked: CheckedPattern,
  ports: Ports,
): Promise<Companion> {
  const { bundle } = checked.pattern;
  const photos = await recallPhotoHashes(ports.work, input.bundle);
  return {
    path: RECORD_PATH,
    mediaType: 'application/json',
    role: 'record',
    inputs: { step: 'record', bundle: bundle.hash },
    make: () => Promise.resolve(writeRecord(bundle, photos)),
  };
}

/** Shop sizes only: the print size lives inside the documents. */
function pictureFiles(records: readonly PictureRecord[]): readonly ReleasedFile[] {
  const stems = new Set<string>();
  const shared = new Set<string>();
  for (const file of new Set(records.map((record) => record.file))) {
    (stems.has(stemOf(file)) ? shared : stems).add(stemOf(file));
  }
  return records
    .filter(({ size }) => size !== PRINT_SIZE)
    .map(({ file, size, artifact, sizeBytes, mediaType }) => {
      const name = plainName(shared.has(stemOf(file)) ? file : stemOf(file));
      const path = `pictures/${name}-${plainName(size)}.${extensionOf(mediaType)}`;
      return { path, artifact, sizeBytes, mediaType, role: 'picture' as const };
    });
}

/** `cover.jpg` is `cover`; where there is a `cover.png` as well, both keep their whole name. */
const stemOf = (file: string): string => file.replace(/\.[^.]*$/, '');

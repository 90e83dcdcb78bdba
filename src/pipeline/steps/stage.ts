/**
 * Sixth step: the release. Gathers documents, pictures and texts under their final names, writes the
 * manifest once, hands the folder over where there is one, and moves the pointer last.
 */
import { blocks } from '../../findings/finding.ts';
import type { Finding } from '../../findings/finding.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { obtain } from '../../release/artifacts.ts';
import { commitManifest, movePointer } from '../../release/commit.ts';
import { handOver } from '../../release/hand-over.ts';
import { extensionOf, manifestKey } from '../../release/keys.ts';
import type { Manifest, ReleasedFile } from '../../release/manifest.ts';
import { addFindings, keepReleased, recallFindings, recallPictures } from '../claims.ts';
import type { PictureRecord, ProofOutput, StageInput, StageOutput } from '../payloads.ts';
import type { Ports } from '../ports.ts';
import { PRINT_SIZE } from '../ports.ts';
import { recallChecked } from '../recall-checked.ts';
import { languagesOf } from './check.ts';
import { editionName, plainName } from './compose.ts';
import { proofRun } from './proof.ts';

export async function stage(input: StageInput, ports: Ports): Promise<StageOutput> {
  const checked = await recallChecked(ports, input.bundle);
  const { id: pattern, version } = checked.pattern.bundle.data;
  const findings = await gatherFindings(input, ports);
  const documents = documentFiles(pattern, version, input.documents);
  const texts = await textFiles(checked, input, ports);
  const result = {
    pattern,
    version,
    manifest: manifestKey(pattern, version),
    made: input.pictures.made + input.documents.filter(({ reused }) => !reused).length + texts.made,
    reused:
      input.pictures.reused + input.documents.filter(({ reused }) => reused).length + texts.reused,
  };
  if (findings.some(blocks)) return { ...result, outcome: 'blocked' };
  const pictures = pictureFiles(await recallPictures(ports.work, input.run));
  const files = [...documents, ...texts.files, ...pictures];
  const manifest = manifestOf(checked, input, findings, files);
  const outcome = await commitManifest(ports.releases, manifest);
  const handed = ports.handOver
    ? await handOver(ports.releases, manifest, ports.handOver.folder, ports.handOver.token)
    : undefined;
  await keepReleased(ports.work, input.run, manifest);
  await movePointer(ports.releases, pattern, version);
  ports.progress({ step: 'stage', state: 'done' });
  const { folder, setAside } = handed ?? {};
  return { ...result, outcome, folder, setAside };
}

/** The findings of the run with those of every proof, kept together for whoever asks. */
async function gatherFindings(input: StageInput, ports: Ports): Promise<readonly Finding[]> {
  const found: Finding[] = [];
  for (const { order, proofFindings } of input.documents) {
    if (proofFindings === 0) continue;
    const run = proofRun(input.run, order.language, editionName(order.edition));
    found.push(...(await recallFindings(ports.work, run)));
  }
  return addFindings(ports.work, input.run, found);
}

function manifestOf(
  checked: CheckedPattern,
  input: StageInput,
  findings: readonly Finding[],
  files: readonly ReleasedFile[],
): Manifest {
  const { data, hash } = checked.pattern.bundle;
  const accepted = findings.flatMap(({ code, where, sizes, accepted: reason }) =>
    reason === undefined
      ? []
      : [{ code, file: where.file, pointer: where.pointer, sizes: [...sizes], reason }],
  );
  return {
    format: 'castoff-release/1',
    pattern: data.id,
    version: data.version,
    issued: data.issued,
    bundle: hash,
    languages: languagesOf(data, input.settings),
    accepted,
    files: [...files],
  };
}

function documentFiles(
  pattern: string,
  version: string,
  documents: readonly ProofOutput[],
): readonly ReleasedFile[] {
  return documents.map(({ order: { language, edition }, artifact, sizeBytes }) => {
    const name = editionName(edition);
    const ending = name === 'standard' ? '' : `-${name}`;
    return {
      path: `${language}/${pattern}-${version}-${language}${ending}.pdf`,
      artifact,
      sizeBytes,
      mediaType: 'application/pdf',
      role: 'document' as const,
      language,
      edition: name,
    };
  });
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

async function textFiles(
  checked: CheckedPattern,
  input: StageInput,
  ports: Ports,
): Promise<{
  readonly files: readonly ReleasedFile[];
  readonly made: number;
  readonly reused: number;
}> {
  const files: ReleasedFile[] = [];
  let reusedCount = 0;
  for (const language of languagesOf(checked.pattern.bundle.data, input.settings)) {
    for (const { name, mediaType, text } of await ports.rooms.companionTexts(checked, language)) {
      const bytes = new TextEncoder().encode(text);
      const inputs = { step: 'text', mediaType, text };
      const { artifact, reused } = await obtain(ports.releases, inputs, async () => ({
        bytes,
        mediaType,
      }));
      if (reused) reusedCount += 1;
      files.push({
        path: `${language}/${name}`,
        artifact: artifact.hash,
        sizeBytes: artifact.sizeBytes,
        mediaType,
        role: 'listing',
        language,
      });
    }
  }
  return { files, made: files.length - reusedCount, reused: reusedCount };
}

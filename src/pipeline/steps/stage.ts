/**
 * Sixth step: the release. Gathers documents, pictures and all else under their final names, writes the
 * manifest once, hands the folder over where there is one, and moves the pointer last.
 */
import type { Finding } from '../../findings/finding.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { commitCopy, commitManifest, movePointer } from '../../release/commit.ts';
import { handOver } from '../../release/hand-over.ts';
import { manifestKey } from '../../release/keys.ts';
import type { Manifest, ReleasedFile } from '../../release/manifest.ts';
import { knownUnreviewed, stopsAt } from '../../release/stage.ts';
import { addFindings, keepCounts, keepReleased, recallFindings } from '../claims.ts';
import { requireGoingOn } from '../ends.ts';
import { recallFollows } from '../follows.ts';
import type { ProofOutput, StageInput, StageOutput } from '../payloads.ts';
import type { Ports } from '../ports.ts';
import { recallChecked } from '../recall-checked.ts';
import { proofRun } from '../run-progress.ts';
import { languagesOf, reviewOrder, stageOf } from './check.ts';
import { editionName } from './compose.ts';
import { stageCompanions } from './companions.ts';

export async function stage(input: StageInput, ports: Ports): Promise<StageOutput> {
  const checked = await recallChecked(ports, input.bundle);
  const { id: pattern, version } = checked.pattern.bundle.data;
  const findings = await gatherFindings(input, ports);
  const documents = documentFiles(pattern, version, input.documents);
  const remade = input.documents.filter(({ reused }) => reused).length;
  const result = {
    pattern,
    version,
    manifest: manifestKey(pattern, version),
    made: input.pictures.made + input.documents.length - remade,
    reused: input.pictures.reused + remade,
  };
  const at = stageOf(input.settings);
  if (findings.some((each) => stopsAt(at, each))) return { ...result, outcome: 'blocked' };
  const follows = await recallFollows(ports.work, input.run);
  const beside = await stageCompanions(input, checked, follows, documents, ports);
  const files = [...documents, ...beside.files];
  const { data } = checked.pattern.bundle;
  const unreviewed = knownUnreviewed(reviewOrder(data, input.settings, ports));
  const planned = {
    ...manifestOf(checked, input, findings, files, follows.earlier),
    ...(at === 'sale' && unreviewed.length > 0 && { unreviewed: [...unreviewed] }),
  };
  const made = result.made + beside.made;
  const reused = result.reused + beside.reused;
  await requireGoingOn(ports.work, input.run);
  await keepCounts(ports.work, input.run, { made, reused });
  const { outcome, manifest } =
    at === 'sale'
      ? { outcome: await commitManifest(ports.releases, planned), manifest: planned }
      : await commitCopy(ports.releases, { ...planned, stage: at });
  const handed = ports.handOver
    ? await handOver(ports.releases, manifest, ports.handOver.folder, ports.handOver.token)
    : undefined;
  await keepReleased(ports.work, input.run, manifest);
  if (at === 'sale') await movePointer(ports.releases, pattern, version);
  ports.progress({ step: 'stage', state: 'done' });
  const { folder, setAside } = handed ?? {};
  const copy = at === 'sale' ? {} : { stage: at, copy: manifest.copy };
  return { ...result, ...copy, made, reused, outcome, folder, setAside };
}

/** The findings of the run with those of every proof, kept together for whoever asks. */
async function gatherFindings(input: StageInput, ports: Ports): Promise<readonly Finding[]> {
  const found: Finding[] = [];
  for (const { order, proofFindings } of input.documents) {
    if (proofFindings === 0) continue;
    found.push(...(await recallFindings(ports.work, proofRun(input.run, order))));
  }
  return addFindings(ports.work, input.run, found);
}

function manifestOf(
  checked: CheckedPattern,
  input: StageInput,
  findings: readonly Finding[],
  files: readonly ReleasedFile[],
  earlier: readonly string[],
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
    ...(data.heldOver?.length && { heldOver: data.heldOver }),
    ...(earlier.length > 0 && { earlier: [...earlier] }),
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

/**
 * Fifth step, once per document: the finished file is read again and compared with the pattern. What
 * it finds is kept, and blocks the release.
 */
import { Fault } from '../../base/fault.ts';
import { artifactKey } from '../../release/keys.ts';
import { keepFindings, recallPictures } from '../claims.ts';
import { recallFollows } from '../follows.ts';
import type { ProofInput, ProofOutput } from '../payloads.ts';
import type { Ports } from '../ports.ts';
import { PRINT_SIZE } from '../ports.ts';
import { recallChecked } from '../recall-checked.ts';
import { proofRun } from '../run-progress.ts';
import { editionName } from './compose.ts';

export async function proof(input: ProofInput, ports: Ports): Promise<ProofOutput> {
  const { document, run } = input;
  const { language, edition } = document.order;
  const checked = await recallChecked(ports, input.bundle);
  const key = artifactKey(document.artifact, 'application/pdf');
  const stored = await ports.releases.get(key);
  if (!stored) throw new Fault('store', `${key} is missing`, { place: key, retryable: true });
  const prints = (await recallPictures(ports.work, run)).filter(({ size }) => size === PRINT_SIZE);
  const pictures = new Map(
    prints.map(({ file, artifact: hash, ...rest }) => [file, { ...rest, hash }]),
  );
  const history = (await recallFollows(ports.work, run)).history[language];
  const resources = { pictures, history };
  const findings = await ports.rooms.proof(checked, document.order, stored.bytes, resources);
  await keepFindings(ports.work, proofRun(run, document.order), findings);
  ports.progress({ step: 'proof', state: 'done', language, edition: editionName(edition) });
  return { ...document, proofFindings: findings.length };
}

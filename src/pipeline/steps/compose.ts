/**
 * Fourth step, once per language and edition: the print document. Its recipe holds all that decides its
 * bytes, so an unchanged document of an earlier run is found instead of composed.
 */
import { present } from '../../base/assert.ts';
import { Fault } from '../../base/fault.ts';
import { hashBytes } from '../../base/hash.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { type Artifact, obtain } from '../../release/artifacts.ts';
import { artifactKey } from '../../release/keys.ts';
import { printedData } from '../../release/printed-data.ts';
import { recallPictures } from '../claims.ts';
import { recallFollows } from '../follows.ts';
import type { ComposedRecord, ComposeInput, PictureRecord } from '../payloads.ts';
import type { ComposeResources, DocumentOrder, Ports } from '../ports.ts';
import { PRINT_SIZE } from '../ports.ts';
import { recallChecked } from '../recall-checked.ts';

export async function compose(input: ComposeInput, ports: Ports): Promise<ComposedRecord> {
  const { order } = input;
  const checked = await recallChecked(ports, input.bundle);
  const prints = (await recallPictures(ports.work, input.run)).filter(
    ({ size }) => size === PRINT_SIZE,
  );
  const history = (await recallFollows(ports.work, input.run)).history[order.language];
  // The document is the same at every stage.
  const unmarked = { language: order.language, edition: order.edition };
  const inputs = recipeOf(ports, checked, unmarked, prints, history);
  const { artifact, reused } = await obtain(ports.releases, inputs, async () => {
    const resources = { ...(await fetchPrints(ports, prints)), history };
    const { bytes, pages } = await ports.rooms.compose(checked, unmarked, resources);
    return { bytes, mediaType: 'application/pdf', facts: { pages } };
  });
  const { language, edition } = order;
  const state = reused ? 'reused' : 'made';
  ports.progress({ step: 'compose', state, language, edition: editionName(edition) });
  const pages = Number(artifact.facts['pages']);
  const { hash, sizeBytes } = await markedCopy(ports, checked, order, artifact);
  return { order, artifact: hash, sizeBytes, pages, reused };
}

/** What is for sale is the composed document itself; before that its stage is painted over it. */
async function markedCopy(
  ports: Ports,
  checked: CheckedPattern,
  order: DocumentOrder,
  composed: Artifact,
): Promise<Artifact> {
  const { stage } = order;
  if (stage === undefined) return composed;
  const inputs = { step: 'mark', program: ports.rooms.fingerprint, document: composed.hash, order };
  const { artifact } = await obtain(ports.releases, inputs, async () => {
    const key = artifactKey(composed.hash, composed.mediaType);
    const stored = await ports.releases.get(key);
    if (!stored) throw new Fault('store', `${key} is missing`, { place: key, retryable: true });
    const bytes = await ports.rooms.mark(checked, order, stored.bytes, stage);
    return { bytes, mediaType: composed.mediaType };
  });
  return artifact;
}

/** `standard`, `one-size-m`, `large-letter`: plain enough for a file name. */
export const editionName = ({ kind, size, paper }: DocumentOrder['edition']): string =>
  [kind, ...(size === undefined ? [] : [plainName(size)]), ...(paper ? [paper.toLowerCase()] : [])].join('-'); // prettier-ignore

/**
 * Small letters, digits and hyphens. A name that loses something on the way gets six digits of its
 * hash, so that two different names never become one.
 */
export function plainName(text: string): string {
  const plain = text
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '');
  return plain === text.toLowerCase()
    ? plain
    : [plain, hashBytes(text).slice(0, 6)].filter(Boolean).join('-');
}

/** All that decides the bytes of a document, and nothing else: not the prose of other languages. */
function recipeOf(
  ports: Ports,
  checked: CheckedPattern,
  order: DocumentOrder,
  prints: readonly PictureRecord[],
  history: string | undefined,
): unknown {
  const { data, prose } = checked.pattern.bundle;
  return {
    step: 'compose',
    program: ports.rooms.fingerprint,
    data: printedData(data, order.language),
    prose: prose.get(order.language),
    pictures: prints.map(({ file, artifact }) => [file, artifact]),
    order,
    history,
  };
}

async function fetchPrints(
  ports: Ports,
  prints: readonly PictureRecord[],
): Promise<ComposeResources> {
  const pictures = new Map<
    string,
    ComposeResources['pictures'] extends ReadonlyMap<string, infer P> ? P : never
  >();
  for (const { file, artifact, mediaType, widthPixels, heightPixels } of prints) {
    const key = artifactKey(artifact, mediaType);
    const stored = await ports.releases.get(key);
    if (!stored) throw new Fault('store', `${key} is missing`, { place: key, retryable: true });
    const { bytes } = present(stored, key);
    pictures.set(file, { bytes, mediaType, widthPixels, heightPixels, hash: artifact });
  }
  return { pictures };
}

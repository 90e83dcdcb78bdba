/**
 * Documents as they would be now: a PDF in one language and edition, and the plain web page. Takes a
 * checked pattern and the rooms; keeps what it made of one state of a pattern, and photographs in the
 * sizes they were prepared in, for as long as that state is remembered.
 */
import { Fault } from '../../base/fault.ts';
import { hashBytes } from '../../base/hash.ts';
import { blocks } from '../../findings/finding.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import type { DocumentOrder, Picture, Rooms } from '../../pipeline/ports.ts';
import { PRINT_SIZE } from '../../pipeline/ports.ts';

/** Documents kept of one state of a pattern: a few languages in a few editions. */
const SHEETS_KEPT = 12;
const sheets = new WeakMap<CheckedPattern, Map<string, Uint8Array>>();

export async function setSheet(
  checked: CheckedPattern,
  order: DocumentOrder,
  rooms: Rooms,
): Promise<Uint8Array> {
  const kept = sheets.get(checked) ?? new Map<string, Uint8Array>();
  sheets.set(checked, kept);
  const name = JSON.stringify(order);
  const before = kept.get(name);
  if (before) return before;
  await requireSpeech(checked, order.language, rooms);
  const pictures = await preparedIn(checked, PRINT_SIZE, rooms);
  try {
    const { bytes } = await rooms.compose(checked, order, { pictures });
    kept.set(name, bytes);
    for (const old of [...kept.keys()].slice(0, -SHEETS_KEPT)) kept.delete(old);
    return bytes;
  } catch (cause) {
    // Pages promise to set only what follows; a draft may hold rows that do not.
    if (cause instanceof Fault || !checked.findings.some(blocks)) throw cause;
    throw new Fault('input', 'the pages cannot be set while findings stand against a release', {
      remedy: 'correct what the findings say first',
      cause,
    });
  }
}

async function requireSpeech(checked: CheckedPattern, language: string, rooms: Rooms) {
  const lacking = (await rooms.checkLanguage(checked, language)).filter(blocks);
  if (lacking.length === 0) return;
  throw new Fault('input', `${language} cannot say this pattern yet`, {
    place: language,
    remedy: 'the findings of the languages say what it lacks',
  });
}

const SCREEN_SIZE = 'whole-1200';
type Prepared = Picture & { readonly hash: string };
const prepared = new WeakMap<Uint8Array, Map<string, Promise<Prepared>>>();

/** Every photograph in one size, by its file name; prepared once for as long as its bytes are kept. */
export async function preparedIn(
  { pattern }: CheckedPattern,
  size: string,
  rooms: Rooms,
): Promise<ReadonlyMap<string, Prepared>> {
  const pictures = new Map<string, Prepared>();
  for (const [file, bytes] of pattern.bundle.photos) {
    const sizes = prepared.get(bytes) ?? new Map<string, Promise<Prepared>>();
    prepared.set(bytes, sizes);
    const making = sizes.get(size) ?? rooms.preparePicture(bytes, size).then(named);
    sizes.set(size, making);
    pictures.set(file, await making);
  }
  return pictures;
}

const named = (picture: Picture): Prepared => ({ ...picture, hash: hashBytes(picture.bytes) });

export async function writeWebPage(
  checked: CheckedPattern,
  language: string,
  rooms: Rooms,
): Promise<Uint8Array> {
  await requireSpeech(checked, language, rooms);
  const made = new Map<string, Uint8Array>();
  const pictures = [];
  for (const size of [PRINT_SIZE, SCREEN_SIZE])
    for (const [file, { bytes, hash, ...rest }] of await preparedIn(checked, size, rooms)) {
      made.set(hash, bytes);
      pictures.push({ ...rest, file, size, artifact: hash, sizeBytes: bytes.length });
    }
  const companions = rooms.companions({
    checked,
    languages: [language],
    earlier: [],
    history: {},
    pictures,
    documents: [],
    name: checked.pattern.bundle.data.id,
    fetch: (artifact) => Promise.resolve(made.get(artifact) ?? new Uint8Array()),
  });
  const page = companions.find(({ role }) => role === 'page');
  if (page) return page.make();
  throw new Fault('missing', `there is no page in ${language}`, { place: language });
}

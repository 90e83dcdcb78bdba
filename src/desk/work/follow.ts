/**
 * What a release of a pattern as it lies there now would follow: the versions before it, whether its
 * number will do, and the correction sheet its buyers would be sent. Takes a checked pattern and what
 * was released; makes the sheet as a release would, and keeps nothing.
 */
import type { CheckedPattern } from '../../pattern/pattern.ts';
import type { Rooms } from '../../pipeline/ports.ts';
import { checkPattern } from '../../pattern/checks/index.ts';
import { adviseVersion } from '../../release/errata/version.ts';
import type { Manifest } from '../../release/manifest.ts';
import { readRecord, RECORD_PATH } from '../../release/record.ts';
import type { Releases } from '../releases.ts';

export interface Follow {
  /** The newest version with other content; undefined where this would be the first release. */
  readonly previous: string | undefined;
  /** This very content is released already, under its own number. */
  readonly released: boolean;
  /** The smallest number that will do, where the pattern's own will not. */
  readonly least: string | undefined;
  /** Correction sheets as plain text, by language; none where both versions print the same. */
  readonly sheets: readonly { readonly language: string; readonly text: string }[];
}

/** More versions than these are not compared for a look. */
const COMPARED = 4;

export interface FollowOrder {
  readonly releases: Releases;
  /** Of the correction sheet; every language says the same of the same rows. */
  readonly language: string;
  readonly rooms: Rooms;
}

export async function followReleases(
  checked: CheckedPattern,
  { releases, language, rooms }: FollowOrder,
): Promise<Follow> {
  const { data, hash } = checked.pattern.bundle;
  const made = await manifestsOf(releases, data.id);
  const released = made.some((each) => each.bundle === hash && each.version === data.version);
  const others = made.filter((each) => each.bundle !== hash && canBeCompared(each));
  const [last] = others;
  const nothing = { previous: last?.version, released, least: undefined, sheets: [] };
  if (!last || released) return nothing;
  const earlier: CheckedPattern[] = [];
  for (const each of others.slice(0, COMPARED)) {
    const { bytes } = await releases.file(each, RECORD_PATH);
    earlier.push(checkPattern(readRecord(bytes, `${data.id} ${each.version}`)));
  }
  const before = earlier[0]?.pattern.bundle.data;
  const least = before && adviseVersion(before, data)?.least;
  return { ...nothing, least, sheets: await sheetsOf(checked, earlier, { language, rooms }) };
}

/** Newest first. */
async function manifestsOf(releases: Releases, pattern: string): Promise<readonly Manifest[]> {
  const versions = await releases.versions(pattern);
  return Promise.all(versions.map((version) => releases.manifest(pattern, version)));
}

const canBeCompared = ({ files }: Manifest): boolean =>
  files.some(({ path }) => path === RECORD_PATH);

async function sheetsOf(
  checked: CheckedPattern,
  earlier: readonly CheckedPattern[],
  { language, rooms }: Pick<FollowOrder, 'language' | 'rooms'>,
): Promise<Follow['sheets']> {
  const { data } = checked.pattern.bundle;
  const companions = rooms.companions({
    checked,
    languages: [language],
    earlier,
    history: {},
    pictures: [],
    documents: [],
    name: data.id,
    fetch: () => Promise.resolve(new Uint8Array()),
  });
  const sheet = companions.find(({ path }) => path.endsWith('-errata.txt'));
  if (!sheet) return [];
  const text = new TextDecoder().decode(await sheet.make());
  return [{ language, text }];
}

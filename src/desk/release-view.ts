/**
 * One release as a page shows it: its documents, texts and pictures, and against the version before it
 * what is new, what is the same, and what is missing. Takes manifests; knows files by content, so that
 * a file counts as the same whatever its path.
 */
import { madeName } from '../release/made.ts';
import type { Manifest, ReleasedFile } from '../release/manifest.ts';
import type { Releases } from './releases.ts';
import { sayMade } from './stages-view.ts';
import type { Say, Wording } from './wording.ts';

export interface FileView {
  readonly address: string;
  readonly path: string;
  readonly name: string;
  readonly language: string;
  readonly edition: string;
  readonly kilobytes: number;
  /** New since the version before. */
  readonly fresh: boolean;
}

export interface ReleaseOrder {
  /** Where texts for shops are read; without it they are only named. */
  readonly releases?: Releases;
  readonly manifest: Manifest;
  readonly before: Manifest | undefined;
  /** Languages of the pattern as it is now. */
  readonly wanted: readonly string[];
  readonly nameOf: (language: string) => string;
  readonly wording: Pick<Wording, 'say' | 'day' | 'list'>;
}

export async function releaseView(order: ReleaseOrder) {
  const { manifest, before, nameOf } = order;
  const { say, day } = order.wording;
  const { pattern, version, issued, stage } = manifest;
  const base = `/files/${pattern}/${madeName(manifest)}`;
  const known = new Set(before?.files.map(({ artifact }) => artifact));
  const viewOf = ({ path, language = '', edition = '', sizeBytes, artifact }: ReleasedFile) => ({
    address: `${base}/${path}`,
    path,
    name: path.split('/').at(-1) ?? path,
    language,
    edition,
    kilobytes: Math.ceil(sizeBytes / 1000),
    fresh: before !== undefined && !known.has(artifact),
  });
  const of = (...roles: readonly ReleasedFile['role'][]): readonly FileView[] =>
    manifest.files.filter(({ role }) => roles.includes(role)).map(viewOf);
  const fresh = manifest.files.filter(({ artifact }) => !known.has(artifact)).length;
  return {
    version,
    issued,
    title:
      stage === undefined
        ? say('release.title', { version, issued: day(issued) })
        : sayMade(manifest, say),
    marked: stage === undefined ? '' : say('made.marked'),
    zip: `${base}.zip`,
    said: before
      ? say('release.since', {
          fresh,
          same: manifest.files.length - fresh,
          before: stage === undefined ? before.version : sayMade(before, say),
        })
      : say('release.first', { count: manifest.files.length }),
    missing: order.wording.list(missingFrom(order).map((tag) => nameOf(tag))),
    documents: of('document').map((file) => {
      const title = [nameOf(file.language), editionSaid(file.edition, say)].join(' · ');
      return { ...file, title, words: say('pages.page', { language: title }) };
    }),
    listings: await listingsOf(order, of('listing')),
    pictures: of('picture'),
    more: of('errata', 'page', 'shop', 'record'),
  };
}

const KINDS = ['standard', 'large', 'ink-saving', 'one-size'] as const;

/** `one-size-m-a4` in words: the kind is said, what follows it stands as it is. */
function editionSaid(edition: string, say: Say): string {
  const kind = KINDS.find((each) => edition === each || edition.startsWith(`${each}-`));
  return kind ? `${say(`edition.${kind}`)} ${edition.slice(kind.length + 1)}`.trim() : edition;
}

/** Languages that the pattern, or the version before, has and this release has not. */
function missingFrom({ manifest, before, wanted }: ReleaseOrder): readonly string[] {
  const all = new Set([...wanted, ...(before?.languages ?? [])]);
  return [...all].filter((tag) => !manifest.languages.includes(tag));
}

async function listingsOf(
  { releases, manifest, nameOf }: ReleaseOrder,
  files: readonly FileView[],
): Promise<readonly object[]> {
  return Promise.all(
    files.map(async (file) => {
      const bytes = (await releases?.file(manifest, file.path))?.bytes;
      const id = `text-${madeName(manifest)}-${file.path}`.replaceAll(/[^\w-]/g, '-');
      const title = `${nameOf(file.language)} · ${file.name}`;
      return { ...file, id, title, text: new TextDecoder().decode(bytes) };
    }),
  );
}

/**
 * Where a release keeps its objects in a store. Artifacts and recipes are named by what they hold or
 * stand for; a manifest is named by pattern and version and is written once; a pointer moves forward.
 *
 *     artifacts/<sha256>.<ending>              what was made, under the hash of its bytes
 *     recipes/<sha256 of inputs>.json          which artifact these inputs gave
 *     releases/<pattern>/<version>/manifest.json
 *     releases/<pattern>/<version>/<proof|test>/<1, 2 …>/manifest.json
 *     releases/<pattern>/current.json          the version a reader should take
 *     tidy/condemned.json                      artifacts that are to go, see `condemned.ts`
 *
 * A release is made (artifacts and recipes), released (its manifest is there), current (the pointer
 * names it or a later one). It only ever goes forward through these. What always holds: an artifact has
 * the hash it is named by; everything a manifest names is there; a manifest never changes; a pointer
 * names a manifest that is there and never goes back. Copies that are not for sale are numbered as they
 * are made; none replaces another, and no pointer names them. `tests/release/` fails every operation on the way.
 */
export const artifactKey = (hash: string, mediaType: string): string =>
  `artifacts/${hash}.${extensionOf(mediaType)}`;
export const recipeKey = (inputsHash: string): string => `recipes/${inputsHash}.json`;
export const manifestKey = (pattern: string, version: string): string =>
  `releases/${pattern}/${version}/manifest.json`;
export const copyKey = (pattern: string, version: string, stage: string, copy: number): string =>
  `releases/${pattern}/${version}/${stage}/${copy}/manifest.json`;
export const currentKey = (pattern: string): string => `releases/${pattern}/current.json`;

const EXTENSIONS: Readonly<Record<string, string>> = {
  'application/pdf': 'pdf',
  'application/json': 'json',
  'application/ld+json': 'jsonld',
  'application/zip': 'zip',
  'image/avif': 'avif',
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/svg+xml': 'svg',
  'text/html': 'html',
  'text/markdown': 'md',
  'text/plain': 'txt',
};

/** The ending of a file of this media type; `bin` for one nobody thought of. */
export const extensionOf = (mediaType: string): string =>
  EXTENSIONS[mediaType.split(';')[0] ?? ''] ?? 'bin';

/**
 * Where a release keeps its objects in a store. Artifacts and recipes are named by what they hold or
 * stand for, so they never change; a manifest is named by pattern and version, and is written once.
 */
export const artifactKey = (hash: string, mediaType: string): string =>
  `artifacts/${hash}.${extensionOf(mediaType)}`;
export const recipeKey = (inputsHash: string): string => `recipes/${inputsHash}.json`;
export const manifestKey = (pattern: string, version: string): string =>
  `releases/${pattern}/${version}/manifest.json`;
export const currentKey = (pattern: string): string => `releases/${pattern}/current.json`;

const EXTENSIONS: Readonly<Record<string, string>> = {
  'application/pdf': 'pdf',
  'application/json': 'json',
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

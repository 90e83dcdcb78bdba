/**
 * Where a text of the bundle stands and what its reader sees there: the note a translator needs beside
 * every segment, and how long the text may be where its place is narrow. Takes the pattern's data; the
 * keys that it names, and the known beginnings of keys. Notes are English, as the tools of the trade are.
 */
import type { BundleData } from '../pattern/bundle/schema.ts';

export interface TextPlace {
  /** What the reader sees, in a sentence or two. */
  readonly note: string;
  /** The most characters its place has room for, where it is narrow. */
  readonly mostCharacters?: number;
}

/**
 * Room in characters (code points). Titles and tags of listings: the narrowest profile in
 * `templates/shop/`; the rest as our own pages have room for, on one line or under a picture.
 */
export const MOST_CHARACTERS = {
  title: 60,
  subtitle: 140,
  'listing.title': 70,
  'listing.short': 160,
  'listing.description': 4000,
  'listing.tags': 24,
  caption: 160,
  alternative: 250,
  name: 80,
} as const;

/** Keys with a place of their own. */
const OWN: Readonly<Record<string, TextPlace>> = {
  title: {
    note: 'Name of the design: on the cover, at the foot of every page and in the shop.',
    mostCharacters: MOST_CHARACTERS.title,
  },
  subtitle: {
    note: 'The line under the title on the cover.',
    mostCharacters: MOST_CHARACTERS.subtitle,
  },
  summary: { note: 'Short text on the cover; also the preview in the shop.' },
  story: { note: 'Where the design comes from, in the designer’s own voice. A paragraph.' },
  notes: { note: 'A note to the knitter before she begins. A paragraph.' },
  finishing: { note: 'Instructions after the last row: sewing up, washing. A paragraph.' },
  care: { note: 'How the finished piece is washed and dried.' },
  'listing.title': {
    note: 'Title of the pattern in a shop, where people search for it.',
    mostCharacters: MOST_CHARACTERS['listing.title'],
  },
  'listing.short': {
    note: 'One sentence for previews in a shop.',
    mostCharacters: MOST_CHARACTERS['listing.short'],
  },
  'listing.description': {
    note: 'Description in a shop, read before buying.',
    mostCharacters: MOST_CHARACTERS['listing.description'],
  },
  'listing.tags': {
    note: 'Words people search for in a shop, with commas between them: those your readers use, as many as you like.',
    mostCharacters: MOST_CHARACTERS['listing.tags'],
  },
};

/** Beginnings of keys, and what stands under them. */
const KINDS: readonly (readonly [start: string, place: TextPlace])[] = [
  ['special.', { note: 'Explains a stitch pattern or technique. The name before the colon is its heading.' }],
  ['note.', { note: 'A note beside the rows it belongs to.' }],
  ['history.', { note: 'Tells buyers of earlier versions what was corrected.' }],
  ['pattern.', { note: 'Name of a stitch pattern; also stands inside sentences.', mostCharacters: MOST_CHARACTERS.name }],
  ['piece.', { note: 'Name of a piece: a heading of the instructions.', mostCharacters: MOST_CHARACTERS.name }],
  ['section.', { note: 'Name of a part of a piece: a heading of the instructions.', mostCharacters: MOST_CHARACTERS.name }],
  ['measure.', { note: 'Name of a measurement: in the table of sizes and beside the schematic.', mostCharacters: MOST_CHARACTERS.name }],
  ['name.', { note: 'Name of an edge or part, as rows say it.', mostCharacters: MOST_CHARACTERS.name }],
]; // prettier-ignore

/** The place of every key of a pattern. A key that nothing names is said to be so. */
export function placesOf(data: BundleData): (key: string) => TextPlace {
  const named = namedPlaces(data);
  return (key) =>
    (Object.hasOwn(OWN, key) ? OWN[key] : undefined) ??
    named.get(key) ??
    KINDS.find(([start]) => key.startsWith(start))?.[1] ?? { note: 'A text of the pattern.' };
}

/** Places that the pattern itself names. The first that names a key gives its note. */
function namedPlaces(data: BundleData): ReadonlyMap<string, TextPlace> {
  const places = new Map<string, TextPlace>();
  const add = (key: string | undefined, note: string, mostCharacters?: number) => {
    if (key !== undefined && !places.has(key))
      places.set(key, { note, ...(mostCharacters !== undefined && { mostCharacters }) });
  };
  for (const { alt, caption, file, role } of data.photos) {
    const { alternative, caption: most } = MOST_CHARACTERS;
    add(alt, `Says what is seen on the ${role} photograph ${file}: read aloud to people who cannot see it.`, alternative);
    add(caption, `Stands under the ${role} photograph ${file}.`, most);
  } // prettier-ignore
  for (const stitch of data.stitches)
    add(stitch.describe, `How to work the stitch ${stitch.id}, in whole sentences.`);
  for (const { version, change, why = {} } of data.history) {
    add(change, `What was corrected in version ${version}.`);
    for (const [line, key] of Object.entries(why)) add(key, `Why ${line} was corrected.`);
  }
  addPieces(data, add);
  const { name } = MOST_CHARACTERS;
  for (const each of data.stitchPatterns) add(each.name, 'Name of a stitch pattern.', name);
  for (const each of data.measurements)
    add(
      each.name,
      `Name of measurement ${each.letter}: in the table and beside the schematic.`,
      name,
    );
  for (const each of data.needles) add(each.purpose, `What the ${each.mm} mm needle is for.`, name);
  return places;
}

function addPieces(
  { pieces }: BundleData,
  add: (key: string | undefined, note: string, mostCharacters?: number) => void,
): void {
  for (const piece of pieces) {
    add(piece.title, `Name of the piece “${piece.id}”: a heading of the instructions.`, MOST_CHARACTERS.name);
    for (const { id, title, intro, lines } of piece.sections) {
      const where = `“${piece.id}”, section “${id}”`;
      add(title, `Heading of ${where}.`, MOST_CHARACTERS.name);
      add(intro, `Before the rows of ${where}.`);
      for (const line of lines)
        if (typeof line !== 'string') add(line.note, `Below a row of ${where}: ${line.text}`);
    }
  }
} // prettier-ignore

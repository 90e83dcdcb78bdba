/**
 * The real rooms behind the pipeline's ports: checks, languages and the press, opened once per process
 * from the folder that holds `templates/` and `locales/`. The same for the command line, the desk and
 * the functions, so that a laptop and the cloud cannot make different documents.
 */
import { readFile, readdir } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../base/fault.ts';
import { hashValue } from '../base/hash.ts';
import { blocks } from '../findings/finding.ts';
import { wordingOf } from '../findings/register.ts';
import { checkLanguage, loadLanguages } from '../language/index.ts';
import { checkPattern } from '../pattern/checks/index.ts';
import type { Bundle } from '../pattern/pattern.ts';
import { openTemplates, type TemplateTexts } from '../press/edition/templates.ts';
import { openFonts } from '../press/fonts/fonts.ts';
import { preparePicture, type PictureUse } from '../press/pictures/index.ts';
import { openPress, type PressEquipment, type PressOrder } from '../press/press.ts';
import { companionsOf, parcelsOf } from '../release/companions.ts';
import { writeHistory } from '../release/errata/errata.ts';
import { readProfiles, type ShopProfile, shopUses } from '../release/shop/profile.ts';
import { type MarkedStage, markOf, unreviewedAmong } from '../release/stage.ts';
import { checkTranslation } from '../translation/index.ts';
import { type DocumentOrder, PRINT_SIZE, type Rooms } from './ports.ts';

export interface RoomsFolders {
  /** Holds `templates/document`, `templates/listing` and `locales`. */
  readonly root: string;
  /** Holds the font packages; found by itself where they are installed as packages. */
  readonly fonts?: string;
  /** Names the program's own code: a version or the hash of a build. */
  readonly program: string;
}

/** The largest a picture stands on a page: the type area of A4. */
const PRINT_USE: PictureUse = { kind: 'print', widthPoints: 510, heightPoints: 620 };

export interface Equipment extends PressEquipment {
  /** The templates as they are written, by name. */
  readonly templateTexts: TemplateTexts;
  readonly profiles: readonly ShopProfile[];
}

/** Languages, templates and fonts: what every room that writes or prints works with. */
export async function openEquipment({
  root,
  fonts,
}: Omit<RoomsFolders, 'program'>): Promise<Equipment> {
  const [languages, templateTexts, profiles] = await Promise.all([
    loadLanguages(path.join(root, 'locales')),
    readTemplates(root),
    readShopProfiles(root),
  ]);
  return {
    languages,
    profiles,
    templates: openTemplates(templateTexts),
    templateTexts,
    fonts: openFonts(fonts === undefined ? {} : { folder: fonts }),
  };
}

/** With what they work, for papers that no step of the pipeline makes. */
export interface OpenedRooms extends Rooms {
  readonly equipment: Equipment;
}

export async function openRooms({ program, ...folders }: RoomsFolders): Promise<OpenedRooms> {
  const equipment = await openEquipment(folders);
  const { languages, templateTexts, profiles } = equipment;
  const uses = new Map<string, PictureUse>(
    shopUses(profiles).map((use): [string, PictureUse] => [use.name, use]),
  ).set(PRINT_SIZE, PRINT_USE);
  const source = languages.get('en-US');
  const press = openPress(equipment);
  const sources = [...languages].map(([tag, { settings, glossary, sources: texts }]) => [
    tag, settings, glossary, texts,
  ]); // prettier-ignore
  const fingerprint = hashValue([program, [...templateTexts], sources, profiles]);
  const studio = { ...equipment, program: fingerprint };
  const sayMark = (tag: string, stage: MarkedStage): string => {
    const language = languages.get(tag);
    if (!language) throw unknownLanguage(tag, [...languages.keys()]);
    return markOf(language, stage);
  };
  return {
    equipment,
    fingerprint,
    check: (bundle: Bundle) => Promise.resolve(checkPattern(bundle)),
    checkLanguage(checked, tag) {
      const language = languages.get(tag);
      if (!language) throw unknownLanguage(tag, [...languages.keys()]);
      const lacking = [
        ...checkLanguage(checked, language, source),
        ...checkTranslation(checked.pattern.bundle, tag),
      ];
      // A document can only be built where the language lacks nothing.
      if (lacking.some(blocks)) return Promise.resolve(lacking);
      const order = { checked, language: tag, kind: 'standard' } as const;
      return Promise.resolve([...lacking, ...press.legible(order)]);
    },
    pictureSizes: [PRINT_SIZE, ...[...uses.keys()].filter((size) => size !== PRINT_SIZE)],
    preparePicture: (bytes, size) => prepare(bytes, size, uses),
    compose: (checked, order, { pictures, history }) =>
      Promise.resolve(press.compose(pressOrder(checked, order, history), pictures)),
    mark: (checked, order, bytes, stage) =>
      press.mark(pressOrder(checked, order, undefined), bytes, sayMark(order.language, stage)),
    unreviewed: unreviewedAmong(languages.values()),
    proof: (checked, order, bytes, { pictures, history }) =>
      press.proof(
        pressOrder(checked, order, history),
        pictures,
        bytes,
        order.stage && sayMark(order.language, order.stage),
      ),
    companions: (order) => companionsOf(order, studio),
    parcels: (order, files) => parcelsOf(order, files, studio),
    sayHistory(now, earlier, tag) {
      const language = languages.get(tag);
      if (!language) throw unknownLanguage(tag, [...languages.keys()]);
      return writeHistory({ now, language, earlier });
    },
  };
}

const pressOrder = (
  checked: PressOrder['checked'],
  { language, edition }: DocumentOrder,
  history: string | undefined,
): PressOrder => ({
  checked,
  language,
  kind: edition.kind,
  ...(edition.size !== undefined && { size: edition.size }),
  ...(edition.paper !== undefined && { paper: edition.paper }),
  ...(history !== undefined && { history }),
});

function unknownLanguage(tag: string, known: readonly string[]): Fault {
  return new Fault('input', `there is no language ${tag}`, {
    place: 'pattern.json /languages',
    remedy: `one of: ${known.join(', ')}`,
  });
}

async function prepare(bytes: Uint8Array, size: string, uses: ReadonlyMap<string, PictureUse>) {
  const use = uses.get(size);
  if (!use) throw new Fault('usage', `there is no picture size ${size}`);
  const { picture, findings } = await preparePicture(bytes, use, { file: 'photos', pointer: '' });
  const [problem] = findings.filter(({ severity }) => severity === 'error').filter(blocks);
  if (picture) return picture;
  throw new Fault('input', problem ? wordingOf(problem).headline : 'a picture cannot be prepared');
}

/** Each template has a name of its own, whatever its folder. */
export const TEMPLATE_FOLDERS = ['document', 'listing', 'errata', 'shop', 'packet'];

async function readTemplates(root: string): Promise<TemplateTexts> {
  const texts = new Map<string, string>();
  for (const folder of TEMPLATE_FOLDERS) {
    const files = await readdir(path.join(root, 'templates', folder));
    for (const file of files.filter((name) => name.endsWith('.hbs')).sort())
      texts.set(
        file.replace(/\.hbs$/, ''),
        await readFile(path.join(root, 'templates', folder, file), 'utf8'),
      );
  }
  return texts;
}

async function readShopProfiles(root: string): Promise<readonly ShopProfile[]> {
  const folder = path.join(root, 'templates', 'shop');
  const files = new Map<string, unknown>();
  for (const file of (await readdir(folder)).filter((name) => name.endsWith('.json')))
    files.set(file, JSON.parse(await readFile(path.join(folder, file), 'utf8')));
  return readProfiles(files);
}

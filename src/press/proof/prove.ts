/**
 * The proof of one document: the finished file is read again and must say, in order, every text of the
 * document it was made from, describe every picture, and keep inside its frames. Gives findings; one
 * that blocks stops the release.
 */
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import type { Document } from '../document.ts';
import type { LayoutTrouble } from '../layout/frames.ts';
import { compareTexts, seen } from './compare.ts';
import { type ExpectedFigure, expectedFigures, expectedTexts } from './expected.ts';
import { dotsPerInch, type Edges, outsideFrames, tooSmall } from './frames.ts';
import { type ReadDocument, type ReadFigure, readPdf } from './read-pdf.ts';

/** What a finished file is compared with. */
export interface ProofCopy {
  readonly document: Document;
  readonly pages: number;
  readonly margins: Edges;
  readonly smallestDotsPerInch: number;
  /** No type of the edition is smaller, drawings included. */
  readonly leastTypePoints: number;
  /** What the layout itself could not set well. */
  readonly trouble: readonly LayoutTrouble[];
}

export async function proveDocument(
  copy: ProofCopy,
  bytes: Uint8Array,
): Promise<readonly Finding[]> {
  const read = await readPdf(bytes);
  const { document } = copy;
  return [
    ...troubleFindings(copy),
    ...wordFindings(document, read),
    ...markFindings(document, read),
    ...factFindings(copy, read),
    ...figureFindings(copy, read),
    ...frameFindings(copy, read),
  ];
}

/** The place of a finding about a finished document. */
const placeIn = ({ language }: Document, pointer: string, label?: string) => ({
  file: `${language}.pdf`,
  pointer,
  ...(label !== undefined && { label }),
});

const pagePlace = (document: Document, page: number) =>
  placeIn(document, `/pages/${page + 1}`, `page ${page + 1}`);

const TROUBLE = {
  overflow: 'press/overflow',
  'missing-glyph': 'press/missing-glyph',
  'picture-resolution': 'press/coarse-picture',
} as const satisfies Record<LayoutTrouble['kind'], string>;

const troubleFindings = ({ document, trouble }: ProofCopy): Finding[] =>
  trouble.map(({ kind, page, text }) =>
    finding(TROUBLE[kind], pagePlace(document, page), { problem: text }),
  );

function wordFindings(document: Document, read: ReadDocument): Finding[] {
  const pages = read.pages.map(({ pieces }) => pieces.map(({ text }) => text));
  const differences = compareTexts(expectedTexts(document), pages);
  const findings = differences.map(({ place, expected, found }) =>
    finding('press/proof', placeIn(document, `/${place}`, place), { expected, found }),
  );
  const stray = read.pages.flatMap(({ stray }, page) =>
    seen(stray) === ''
      ? []
      : [finding('press/proof', pagePlace(document, page), { expected: '', found: stray })],
  );
  return [...findings, ...stray];
}

/** Every page of a document that is not for sale says so at its head, once. */
function markFindings(document: Document, read: ReadDocument): Finding[] {
  const { mark } = document;
  if (mark === undefined) return [];
  const expected = seen(mark);
  return read.pages.flatMap(({ furniture }, at) => {
    const texts = furniture.map(({ text }) => seen(text));
    if (texts.filter((text) => text === expected).length === 1) return [];
    const found = texts.filter((text) => text !== '').join(' · ');
    return [finding('stage/mark', pagePlace(document, at), { page: at + 1, expected, found })];
  });
}

/** Title, language and number of pages. */
function factFindings({ document, pages }: ProofCopy, read: ReadDocument): Finding[] {
  const facts = [
    ['title', document.title, read.title],
    ['language', document.language, read.language],
    ['pages', `${pages} pages`, `${read.pages.length} pages`],
  ] as const;
  return facts.flatMap(([name, expected, found]) =>
    seen(expected) === seen(found)
      ? []
      : [finding('press/proof', placeIn(document, `/${name}`), { expected, found })],
  );
}

/** Pictures and drawings: each described as the document says, each photograph that one and fine enough. */
function figureFindings(copy: ProofCopy, read: ReadDocument): Finding[] {
  const expected = expectedFigures(copy.document);
  const found = read.pages.flatMap(({ figures }) => figures);
  const findings: Finding[] = [];
  for (let at = 0; at < Math.max(expected.length, found.length); at += 1) {
    const problem = figureFinding(copy, expected[at], found[at], read.pictures);
    if (problem) findings.push(problem);
    if (problem?.code === 'press/proof') break;
  }
  return findings;
}

function figureFinding(
  { document, smallestDotsPerInch }: ProofCopy,
  expected: ExpectedFigure | undefined,
  found: ReadFigure | undefined,
  pictures: ReadDocument['pictures'],
): Finding | undefined {
  const place = placeIn(document, `/${expected?.place ?? 'end'}`, expected?.place ?? 'end');
  const facts = { expected: expected?.alternative ?? '', found: found?.alternative ?? '' };
  if (seen(facts.expected) !== seen(facts.found)) return finding('press/proof', place, facts);
  if (expected?.picture === undefined) return undefined;
  const { hash, widthPixels } = expected.picture;
  const width = found?.picture?.width ?? 0;
  if (width === 0) return finding('press/proof', place, { ...facts, found: 'no picture' });
  if (!pictures.has(hash)) return finding('press/proof', place, { ...facts, found: 'another picture' }); // prettier-ignore
  const dots = Math.round(dotsPerInch(widthPixels, width));
  if (dots >= smallestDotsPerInch) return undefined;
  const problem = `${expected.place} is printed with ${dots} dots per inch`;
  return finding('press/coarse-picture', place, { problem });
}

function frameFindings(copy: ProofCopy, read: ReadDocument): Finding[] {
  const { document, margins, leastTypePoints } = copy;
  const outside = outsideFrames(read.pages, margins).map(({ page, text }) => ({
    page,
    problem: `“${seen(text).slice(0, 60)}” reaches beyond its frame`,
  }));
  const small = tooSmall(read.pages, leastTypePoints).map(({ page, text }) => ({
    page,
    problem: `“${seen(text).slice(-60)}” is smaller than ${leastTypePoints} points`,
  }));
  return [...outside, ...small].map(({ page, problem }) =>
    finding('press/overflow', pagePlace(document, page), { problem }),
  );
}

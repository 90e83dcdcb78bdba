/**
 * Where lines may end, against samples of the Unicode Consortium's LineBreakTest-13.0.0.txt (the file
 * that UAX #14 names for conformance; © Unicode, Inc.), written here as text with `÷` at each
 * opportunity. Where our own rules keep more together than UAX #14, the samples say so.
 */
import { describe, expect, it } from 'vitest';
import { Measuring } from '../../src/press/layout/lines/measuring.ts';
import { TagTree } from '../../src/press/layout/tag-tree.ts';
import { pageStyle } from '../../src/press/layout/style.ts';
import type { Setting } from '../../src/press/layout/setting.ts';
import { flatten } from '../../src/press/layout/lines/flat-text.ts';
import { breakOpportunities } from '../../src/press/layout/lines/opportunities.ts';
import type { Inline } from '../../src/press/document.ts';
import { layOut } from '../../src/press/layout/lay-out.ts';
import { documentOf, paragraph, text } from './documents.ts';
import { plainFonts } from './plain-fonts.ts';
import { runsOf } from './reading.ts';

function settingIn(language: string): Setting {
  return {
    style: pageStyle('standard'),
    measuring: new Measuring(plainFonts),
    language,
    direction: 'ltr',
    tags: new TagTree(),
    trouble: [],
    pageHeight: 700,
  };
}

/** The text with a mark at each place where a line may end. */
function broken(inlines: readonly Inline[], language = 'en'): string {
  const setting = settingIn(language);
  const flat = flatten(inlines, setting.style.paragraphs.body.type, 'artifact', setting);
  const { usual } = breakOpportunities(flat);
  let start = 0;
  const parts = usual.map(({ position }) => {
    const part = flat.text.slice(start, position);
    start = position;
    return part;
  });
  return parts.join('÷');
}

const breaksOf = (sample: string, language = 'en'): string =>
  broken([text(sample.replaceAll('÷', ''))], language);

describe('opportunities of UAX #14', () => {
  it.each([
    // Brackets, quotes and full stops stay with their word.
    ['a(s)'],
    ['本 ÷(a'],
    ['点 ÷[編÷集]'],
    ['(s) ÷本'],
    ['ab"（ま'],
    ['は、"The'],
    ['dog" ÷を'],
    ['90" ÷と'],
    ['(印÷本)'],
    // Kinsoku: small kana, the prolonged sound mark, closing brackets and stops begin no line.
    ['ディ÷ア÷（ab）』'],
    ['ピュー÷タ÷で÷使÷用÷す÷る'],
    ['ター÷キー÷を÷押'],
    ['フ÷リー÷百'],
    ['イ÷ジー・÷ドッ÷グ、÷和'],
    ['ン・÷フォッ÷ク'],
    ['ガ÷ワ」。÷こ÷れ'],
    ['し、÷ab÷と'],
    ['き、!!、!!!÷と'],
    ['しょ÷う。。。'],
    ['後…÷に'],
    ['ク」÷ま、÷本'],
    // Opening brackets end no line.
    ['に÷「バ÷(ba)」÷や÷「ス'],
    ['る÷「UK÷ポ÷ン÷ド」）、÷エ'],
    ['で÷『英÷語'],
    ['ス・÷ジャ÷ン'],
    // Emoji flags stay in pairs.
    ['🇷🇺÷🇸🇪'],
    // Hebrew keeps its hyphen.
    ['א-א'],
  ])('%s', (sample) => {
    expect(breaksOf(sample)).toBe(sample);
  });
});

describe('what stays together beyond UAX #14', () => {
  it.each([
    ['work ÷22–24 ÷rows', 'a range of numbers'],
    ['4-5 ÷times', 'a range with a hyphen'],
    ['20 × 30 cm ÷wide', 'a measure of two sides'],
    ['3.5 mm ÷needle', 'a number and its unit'],
    ['75 % ÷wool', 'a per cent sign after a space'],
    ['1½ in ÷wide', 'a fraction and its unit'],
    ['from ÷14 in ÷on', 'a unit that could be a word'],
    ['12 ÷stitches', 'a word after a number may stand on the next line'],
    ['表÷8目÷を÷編÷む', 'a number and its counter'],
    ['well-÷known', 'a hyphen between letters may end a line'],
    ['目、÷*表÷目、÷*か÷ら', 'the mark of a repeat and what is repeated'],
    ['« a » ÷b', 'French quotation marks and their spaces'],
  ])('%s: %s', (sample) => {
    expect(breaksOf(sample)).toBe(sample);
  });

  it('keeps Korean words whole', () => {
    expect(breaksOf('코를 ÷줍고 ÷12코를 ÷뜬다.', 'ko')).toBe('코를 ÷줍고 ÷12코를 ÷뜬다.');
  });

  it('keeps what the document calls unbroken', () => {
    const inlines: Inline[] = [
      text('Work '),
      { kind: 'unbroken', children: [text('84 (92, '), text('100', 'strong'), text(') sts')] },
      text(' in all.'),
    ];
    expect(broken(inlines)).toBe('Work ÷84 (92, 100) sts ÷in ÷all.');
  });

  it('ends a line where the document says so', () => {
    expect(broken([text('one '), { kind: 'lineBreak' }, text(' two')])).toBe('one\u2028÷two');
  });
});

describe('Japanese signs', () => {
  const japanese = (content: string) => {
    const laid = layOut(
      documentOf([paragraph(content)], { language: 'ja' }),
      pageStyle('standard'),
      plainFonts,
    );
    return runsOf(laid).filter(({ mark }) => mark.tag !== 'artifact');
  };

  it('share one blank where two follow each other', () => {
    const [line] = japanese('編む。「表」、裏');
    // Eight squares; the stop before the bracket and the bracket before the comma lose half of theirs,
    // and so does no other: 8 em less twice a half.
    expect(line!.mark.run.width).toBeCloseTo(7000, 6);
  });

  it('begin a line with the ink of a bracket, not with its blank half', () => {
    const [plain] = japanese('編む');
    const [bracket] = japanese('「編む」');
    expect(plain!.mark.x - bracket!.mark.x).toBeCloseTo(bracket!.mark.sizePoints / 2, 2);
  });

  it('end full lines where the ink of a stop is', () => {
    const lines = japanese('編み目を数えながら、ゆっくり編む。'.repeat(12));
    const style = pageStyle('standard');
    const edge = 595.28 - style.margins.end;
    const full = lines.slice(0, -1).map(({ mark }) => {
      const blank = /[、。]$/u.test(mark.run.text) ? mark.sizePoints / 2 : 0;
      return mark.x + (mark.run.width * mark.sizePoints) / 1000 - blank;
    });
    for (const end of full) expect(end).toBeCloseTo(edge, 1);
  });
});

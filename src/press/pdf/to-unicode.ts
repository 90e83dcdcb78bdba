/**
 * The map from character codes to text that extraction and screen readers use: a ToUnicode CMap
 * (ISO 32000-1, 9.10.3; Adobe Technical Note 5411). At most 100 lines stand in one block.
 */
const BLOCK = 100;

/** What the later parts of a cluster are extracted as: nothing that is seen or read. */
const NOTHING = '\u200b';

const hexOf = (text: string): string => {
  let hex = '';
  for (let unit = 0; unit < text.length; unit++) {
    hex += text.charCodeAt(unit).toString(16).padStart(4, '0');
  }
  return hex;
};

/** `texts` by code; code 0, the missing glyph, is never used and not mapped. */
export function toUnicodeMap(texts: readonly string[]): string {
  const lines = texts
    .map((text, code) => `<${code.toString(16).padStart(4, '0')}> <${hexOf(text || NOTHING)}>`)
    .slice(1);
  const blocks: string[] = [];
  for (let start = 0; start < lines.length; start += BLOCK) {
    const block = lines.slice(start, start + BLOCK);
    blocks.push(`${block.length} beginbfchar\n${block.join('\n')}\nendbfchar`);
  }
  return [
    '/CIDInit /ProcSet findresource begin',
    '12 dict begin',
    'begincmap',
    '/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def',
    '/CMapName /Adobe-Identity-UCS def',
    '/CMapType 2 def',
    '1 begincodespacerange',
    '<0000> <ffff>',
    'endcodespacerange',
    ...blocks,
    'endcmap',
    'CMapName currentdict /CMap defineresource pop',
    'end',
    'end',
  ].join('\n');
}

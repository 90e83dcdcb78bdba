/** What every page of one pattern shows around itself: its title and the ways to its other pages. */
import type { Looked } from '../look.ts';
import type { Say } from '../wording.ts';

/** The title in the designer's own language, or the name of the folder. */
export function titleOf({ bundle }: Looked, name: string): string {
  const title = bundle?.prose.get(bundle.data.language)?.['title'];
  return typeof title === 'string' ? title : name;
}

const PARTS = [
  ['findings', ''],
  ['numbers', '/numbers'],
  ['drawings', '/drawings'],
  ['translations', '/translations'],
  ['pages', '/pages'],
  ['release', '/release'],
] as const;

export function frameOf(
  looked: Looked,
  name: string,
  here: (typeof PARTS)[number][0],
  say: Say,
): Readonly<Record<string, unknown>> {
  const address = `/patterns/${encodeURIComponent(name)}`;
  const title = titleOf(looked, name);
  const parts = PARTS.map(([part, end]) => ({
    word: say(`part.${part}`),
    address: address + end,
    here: part === here,
  }));
  return { name, title: `${title} · ${say(`part.${here}`)}`, heading: title, address, parts };
}

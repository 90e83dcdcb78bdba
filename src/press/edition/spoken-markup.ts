/**
 * Spoken parts as markup for the templates: roles become elements, everything is escaped. The way
 * back is `markup.ts`. Knows neither the page nor what is said.
 */
import { escapeMarkup } from '../../base/escape.ts';
import type { SpokenPart, SpokenRole } from '../../language/spoken.ts';

const ELEMENT: Readonly<Record<SpokenRole, string | undefined>> = {
  plain: undefined,
  abbreviation: 'abbr',
  count: 'data',
  strong: 'strong',
};

/** Where the names of charts lead, by the chart's id. */
export type Links = ReadonlyMap<string, string>;

export function toMarkup(parts: readonly SpokenPart[], links?: Links): string {
  return parts
    .map((part) => linked(part, part.chart === undefined ? undefined : links?.get(part.chart)))
    .join('');
}

const linked = (part: SpokenPart, target: string | undefined): string =>
  target === undefined
    ? partMarkup(part)
    : `<a href="${escapeMarkup(target)}">${partMarkup(part)}</a>`;

function partMarkup({ text, role, unbroken }: SpokenPart): string {
  const element = ELEMENT[role];
  const inner = element ? `<${element}>${escapeMarkup(text)}</${element}>` : escapeMarkup(text);
  return unbroken ? `<span class="unbroken">${inner}</span>` : inner;
}

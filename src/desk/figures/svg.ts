/**
 * Small figures of the desk as SVG text. Takes names, attributes and children, gives markup in which
 * every text is escaped. Colours come from the page through classes and `currentColor`, so that a figure
 * follows its paper into the dark.
 */
import { escapeMarkup } from '../../base/escape.ts';

export type Attributes = Readonly<Record<string, string | number>>;

export const shape = (name: string, attributes: Attributes, inside = ''): string =>
  inside === ''
    ? `<${name}${attributesText(attributes)}/>`
    : `<${name}${attributesText(attributes)}>${inside}</${name}>`;

export const words = (attributes: Attributes, text: string): string =>
  shape('text', attributes, escapeMarkup(text));

/** A figure that says in words what it shows; without words it is only a companion of a number. */
export function figure(
  {
    width,
    height,
    kind,
  }: { readonly width: number; readonly height: number; readonly kind: string },
  inside: readonly string[],
  said?: string,
): string {
  const voice: Attributes =
    said === undefined ? { 'aria-hidden': 'true' } : { role: 'img', 'aria-label': said };
  const box = { class: kind, viewBox: `0 0 ${plain(width)} ${plain(height)}`, width, height };
  return shape('svg', { ...box, ...voice, focusable: 'false' }, inside.join(''));
}

const attributesText = (attributes: Attributes): string =>
  Object.entries(attributes)
    .map(
      ([name, value]) =>
        ` ${name}="${typeof value === 'number' ? plain(value) : escapeMarkup(value)}"`,
    )
    .join('');

const plain = (value: number): string => String(Math.round(value * 100) / 100);

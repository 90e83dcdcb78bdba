/**
 * A drawing as SVG text: accessible (title, description, `role="img"`), self-contained and the same
 * for the same drawing, numbers rounded to a hundredth of a point. It knows shapes only; what they
 * mean is said by the title and description that are passed in.
 */
import type { Drawing, PathStep, Shape, Stroke } from './drawing.ts';

export interface SvgText {
  readonly title: string;
  /** What the drawing shows, in words, for those who do not see it. */
  readonly description: string;
  /** BCP 47 of title, description and letters. */
  readonly language?: string;
  /** Put before every id, so that several drawings can stand in one page. */
  readonly idPrefix?: string;
  readonly fontFamily?: string;
}

const escape = (text: string): string =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');

/** A number to a hundredth, without trailing zeros and without −0. */
export function roundedNumber(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}

const numbers = (values: readonly number[]) => values.map(roundedNumber).join(' ');

const pathText = (steps: readonly PathStep[]): string =>
  steps.map(([letter, ...values]) => letter + numbers(values)).join('');

function strokeText(stroke: Stroke): string {
  const dash = stroke.dash ? ` stroke-dasharray="${numbers(stroke.dash)}"` : '';
  const cap = stroke.cap === 'round' ? ' stroke-linecap="round"' : '';
  const join = stroke.join === 'round' ? ' stroke-linejoin="round"' : '';
  const width = roundedNumber(stroke.widthPoints);
  return ` stroke="${escape(stroke.colour)}" stroke-width="${width}"${dash}${cap}${join}`;
}

function shapeText(shape: Shape, symbolId: (name: string) => string): string {
  switch (shape.kind) {
    case 'path': {
      const fill = ` fill="${escape(shape.fill ?? 'none')}"`;
      const stroke = shape.stroke ? strokeText(shape.stroke) : '';
      return `<path d="${pathText(shape.steps)}"${fill}${stroke}/>`;
    }
    case 'use':
      return `<use href="#${symbolId(shape.symbol)}" x="${roundedNumber(shape.x)}" y="${roundedNumber(shape.y)}"/>`;
    case 'text': {
      const bold = shape.weight === 'bold' ? ' font-weight="700"' : '';
      const anchor = shape.anchor === 'start' ? '' : ` text-anchor="${shape.anchor}"`;
      const place = `x="${roundedNumber(shape.x)}" y="${roundedNumber(shape.y)}"`;
      const fill = ` fill="${escape(shape.colour ?? '#000000')}"`;
      const size = ` font-size="${roundedNumber(shape.sizePoints)}"`;
      return `<text ${place}${size}${bold}${anchor}${fill}>${escape(shape.text)}</text>`;
    }
  }
}

/** SVG text of a drawing, in points (`viewBox` units), one element a line. */
export function toSvg(drawing: Drawing, text: SvgText): string {
  const prefix = text.idPrefix ?? 'drawing';
  const names = Object.keys(drawing.symbols);
  const ids = new Map(names.map((name, index) => [name, `${prefix}-s${index + 1}`]));
  const symbolId = (name: string) => ids.get(name) ?? `${prefix}-missing`;
  const [width, height] = [drawing.widthPoints, drawing.heightPoints].map(roundedNumber);
  const language = text.language ? ` xml:lang="${escape(text.language)}"` : '';
  const font = escape(text.fontFamily ?? 'Noto Sans, sans-serif');
  const definitions = names.map(
    (name) =>
      `<g id="${symbolId(name)}">${(drawing.symbols[name] ?? []).map((shape) => shapeText(shape, symbolId)).join('')}</g>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}pt" height="${height}pt" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${prefix}-title ${prefix}-description" font-family="${font}"${language}>`,
    `<title id="${prefix}-title">${escape(text.title)}</title>`,
    `<desc id="${prefix}-description">${escape(text.description)}</desc>`,
    ...(definitions.length > 0 ? ['<defs>', ...definitions, '</defs>'] : []),
    ...drawing.shapes.map((shape) => shapeText(shape, symbolId)),
    '</svg>',
    '',
  ].join('\n');
}

/**
 * Links and the places they lead to. Each link is an annotation that names its tag, since a screen
 * reader finds it there (ISO 14289-1, 7.18.5); inside the document it leads to a page and a height.
 */
import { assert, present } from '../../base/assert.ts';
import type { Laid, Mark } from '../layout/frames.ts';
import { uriOf } from './address.ts';
import { assign, bytesText, type PDFContext, type PDFRef, text, type Value } from './objects.ts';
import type { PaintedPages } from './pages.ts';

/** Printed with the page, as archives demand (table 165, flag bit 3). */
const PRINT = 1 << 2;

/** A place on a page: the top of the window goes to `y`, which counts downwards in frames. */
export function destination(laid: Laid, pages: PaintedPages, page: number, y: number): Value {
  const { heightPoints } = present(laid.pages[page], `page ${page}`);
  const top = Math.round((heightPoints - y) * 1000) / 1000;
  return [present(pages.refs[page], `page ${page}`), 'XYZ', 0, top, 0];
}

export function addLink(
  context: PDFContext,
  laid: Laid,
  link: Extract<Mark, { kind: 'link' }>,
  page: number,
  pages: PaintedPages,
): PDFRef {
  const { heightPoints } = present(laid.pages[page], `page ${page}`);
  const { tag, target, x, y, width, height } = link;
  assert(tag !== 'artifact', `the link to ${target} has no tag`);
  const ref = context.nextRef();
  const contents = laid.tags[tag]?.alternative ?? target;
  assign(context, ref, {
    Type: 'Annot',
    Subtype: 'Link',
    Rect: [x, heightPoints - y - height, x + width, heightPoints - y].map(
      (value) => Math.round(value * 1000) / 1000,
    ),
    Border: [0, 0, 0],
    F: PRINT,
    P: present(pages.refs[page], `page ${page}`),
    Contents: text(contents),
    StructParent: pages.content.annotate(tag, page, ref),
    ...action(laid, target, pages),
  });
  return ref;
}

function action(laid: Laid, target: string, pages: PaintedPages): Record<string, Value> {
  if (!target.startsWith('#')) {
    return { A: { Type: 'Action', S: 'URI', URI: bytesText(uriOf(target)) } };
  }
  const place = present(laid.destinations.get(target.slice(1)), `the place ${target}`);
  return { Dest: destination(laid, pages, place.page, place.y) };
}

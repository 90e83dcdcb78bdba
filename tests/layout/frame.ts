/** Whether marks stay inside their page and its margins. */
import type { Document } from '../../src/press/document.ts';
import type { Laid, Mark } from '../../src/press/layout/frames.ts';
import type { PageStyle } from '../../src/press/layout/style.ts';

interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** What a mark covers; of text its inked part along the line, and of its height the baseline. */
export function boxOf(mark: Mark): Box {
  switch (mark.kind) {
    case 'run': {
      const inked = mark.run.text.replace(/[\s\u2028]+$/u, '');
      const trailing = mark.run.glyphs.slice(Array.from(inked).length);
      const lost = trailing.reduce((sum, glyph) => sum + glyph.advance, 0);
      const width = (mark.run.width * mark.sizePoints) / 1000;
      const blank = (lost * mark.sizePoints) / 1000;
      const left = mark.run.direction === 'rtl' ? mark.x + blank : mark.x;
      return { left, top: mark.y, right: left + width - blank, bottom: mark.y };
    }
    case 'rule':
      return { left: mark.x1, top: mark.y1, right: mark.x2, bottom: mark.y2 };
    case 'drawing': {
      const { widthPoints, heightPoints } = mark.drawing;
      const [width, height] = [widthPoints * mark.scale, heightPoints * mark.scale];
      return { left: mark.x, top: mark.y, right: mark.x + width, bottom: mark.y + height };
    }
    case 'box':
    case 'picture':
    case 'link':
      return {
        left: mark.x,
        top: mark.y,
        right: mark.x + mark.width,
        bottom: mark.y + mark.height,
      };
  }
}

const HAIR = 0.06;

/** Marks that leave the type area, or the page where they belong to its foot. */
export function strays(laid: Laid, document: Document, style: PageStyle): string[] {
  const { margins } = style;
  const rightToLeft = document.direction === 'rtl';
  return laid.pages.flatMap((page, number) =>
    page.marks.flatMap((mark) => {
      const box = boxOf(mark);
      const left = rightToLeft ? margins.end : margins.start;
      const right = page.widthPoints - (rightToLeft ? margins.start : margins.end);
      const foot = mark.tag === 'artifact' ? page.heightPoints : page.heightPoints - margins.bottom;
      const inside =
        box.left >= left - HAIR &&
        box.right <= right + HAIR &&
        box.top >= margins.top - HAIR &&
        box.bottom <= foot + HAIR;
      if (inside || (mark.kind === 'run' && mark.run.text.trim() === '')) return [];
      const text = mark.kind === 'run' ? ` “${mark.run.text}”` : '';
      return [`page ${number + 1}: ${mark.kind}${text} ${JSON.stringify(box)}`];
    }),
  );
}

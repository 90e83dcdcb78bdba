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
      const last = mark.run.glyphs.findLastIndex(({ text }) => text.trim() !== '');
      const glyphs = mark.run.glyphs.slice(0, last + 1);
      const point = mark.sizePoints / 1000;
      const width = glyphs.reduce((sum, glyph) => sum + glyph.advance, 0) * point;
      const start = mark.run.direction === 'rtl' ? mark.x + mark.run.width * point - width : mark.x;
      // Half of a bracket's or a stop's square is blank, and may stand outside.
      const before = /^[「『（〈《【]/u.test(inked) ? 500 * point : 0;
      const after = /[」』）〉》】、。，．]$/u.test(inked) ? 500 * point : 0;
      return { left: start + before, top: mark.y, right: start + width - after, bottom: mark.y };
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

/** The page of the bench: A4, one wide column, small type, so that the document has its 14 pages. */
import { pageStyle, type PageStyle } from '../../../src/press/layout/style.ts';

const style = pageStyle('ink-saving');
const { body } = style.paragraphs;

export const benchStyle: PageStyle = {
  ...style,
  side: { width: 0, gutter: 0 },
  paragraphs: {
    ...style.paragraphs,
    body: { ...body, type: { ...body.type, size: 8.8, leading: 11.4 }, after: 4 },
  },
};

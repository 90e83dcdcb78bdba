/** Short ways to write documents in tests. The texts are invented. */
import type { Block, Document, Inline, InlineRole } from '../../src/press/document.ts';

export const text = (content: string, role: InlineRole = 'plain', language?: string): Inline => ({
  kind: 'text',
  text: content,
  role,
  ...(language === undefined ? {} : { language }),
});

export const paragraph = (content: string): Block => ({
  kind: 'paragraph',
  role: 'body',
  content: [text(content)],
});

export const heading = (content: string, level: 1 | 2 | 3 | 4 = 2, id = content): Block => ({
  kind: 'heading',
  level,
  id,
  content: [text(content)],
});

export const instruction = (label: string, content: string, count = '', id = label): Block => ({
  kind: 'instruction',
  id,
  label: label === '' ? [] : [text(label)],
  content: [text(content)],
  count: count === '' ? [] : [text(count, 'count')],
});

export const documentOf = (blocks: readonly Block[], more: Partial<Document> = {}): Document => ({
  title: 'Skerry',
  author: 'Northfold',
  subject: '',
  keywords: [],
  language: 'en',
  direction: 'ltr',
  paper: 'A4',
  issued: '2026-03-01',
  edition: 'standard',
  footer: { start: 'Skerry', end: '{page} / {pages}' },
  blocks,
  ...more,
});

/** Templates are strict, values are data, and the markup they write is read back as blocks. */
import { describe, expect, it } from 'vitest';
import { readMarkup } from '../../src/press/edition/markup.ts';
import { openTemplates } from '../../src/press/edition/templates.ts';
import { inlineText } from '../../src/press/proof/expected.ts';

const NOTHING = { figures: new Map(), drawings: new Map() };
const words = (key: string) => `<${key}>`;

describe('templates', () => {
  it('refuse a field the view does not have', () => {
    const templates = openTemplates(new Map([['page', '<p>{{title}} {{subtitel}}</p>']]));
    expect(() => templates.write('page', { title: 'Hat' }, words)).toThrow(/subtitel/);
  });

  it('write values as text, whatever they hold', () => {
    const templates = openTemplates(new Map([['page', '<p>{{text}} {{word "a.b"}}</p>']]));
    const text = '{{secret}} & <script>alert(1)</script>';
    const markup = templates.write('page', { text, secret: 'told' }, words);
    expect(markup).not.toContain('<script>');
    const [block] = readMarkup(markup, NOTHING);
    expect(block?.kind === 'paragraph' && inlineText(block.content)).toBe(`${text} <a.b>`);
  });

  it('include each other', () => {
    const templates = openTemplates(
      new Map([
        ['a', '<p>{{> b}}</p>'],
        ['b', '{{x}}'],
      ]),
    );
    expect(templates.write('a', { x: 'in' }, words)).toBe('<p>in</p>');
  });
});

describe('markup', () => {
  it('reads an instruction with its three parts', () => {
    const markup =
      '<article id="l1"><span class="label">Rnd 1:</span><span class="what"><abbr>k</abbr><data>2</data></span><span class="count"></span></article>';
    expect(readMarkup(markup, NOTHING)).toEqual([
      {
        kind: 'instruction',
        id: 'l1',
        label: [{ kind: 'text', text: 'Rnd 1:', role: 'plain' }],
        content: [
          { kind: 'text', text: 'k', role: 'abbreviation' },
          { kind: 'text', text: '2', role: 'count' },
        ],
        count: [],
      },
    ]);
  });

  it('folds white space as HTML does and keeps no-break spaces', () => {
    const [block] = readMarkup('<p>  one\n  <strong>two </strong> three\u00a0in </p>', NOTHING);
    expect(block?.kind === 'paragraph' && inlineText(block.content)).toBe('one two three\u00a0in');
  });

  it('reads a table with heads, spans and alignment', () => {
    const [table] = readMarkup(
      '<table id="t"><caption>C</caption><colgroup><col class="start" data-stretch="0"><col class="end" data-stretch="1"></colgroup><thead><tr><th scope="col" colspan="2">A</th></tr></thead><tbody><tr><th scope="row">x</th><td>1</td></tr></tbody></table>',
      NOTHING,
    );
    expect(table).toMatchObject({
      kind: 'table',
      columns: [
        { align: 'start', stretch: 0 },
        { align: 'end', stretch: 1 },
      ],
      head: [[{ header: 'column', span: 2 }]],
      rows: [[{ header: 'row' }, {}]],
    });
  });

  it('does not know what is no block', () => {
    expect(() => readMarkup('<video></video>', NOTHING)).toThrow(/no block/);
    expect(() => readMarkup('<p><b>x</b></p>', NOTHING)).toThrow(/inside a line/);
  });
});

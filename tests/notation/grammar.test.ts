/**
 * The grammar stands twice: rule by rule above the functions that read it, and whole in `grammar.md`.
 * Both say the same, and every name a rule uses is a rule or a class of words.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const folder = new URL('../../src/pattern/notation/', import.meta.url);

/** Classes of words that the page names instead of defining them. */
const CLASSES = new Set([
  'number', 'ordinal', 'word', 'star', 'size name', 'stitch name', 'rest of stitch name', 'stitch pattern name',
  'quotation mark',
]); // prettier-ignore

const plain = (rule: string): string => rule.replace(/\s+/g, ' ').trim();

function rulesInCode(): string[] {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.ts'),
  );
  return files.flatMap((file) => {
    const source = readFileSync(new URL(file, folder), 'utf8');
    const found = source.matchAll(/@rule ([^@]*?)\s*\*\//g);
    return [...found].map(([, rule = '']) => plain(rule.replace(/\n\s*\* ?/g, ' ')));
  });
}

function rulesOnPage(): string[] {
  const page = readFileSync(new URL('grammar.md', folder), 'utf8');
  return [...page.matchAll(/```ebnf\n([\s\S]*?)```/g)].flatMap(([, block = '']) =>
    block.split(/;\n/).map((rule) => plain(rule)).filter((rule) => rule !== '').map((rule) => `${rule};`),
  ); // prettier-ignore
}

test('the page and the comments have the same rules', () => {
  expect(rulesOnPage().sort()).toEqual(rulesInCode().sort());
});

test('every name is defined once', () => {
  const names = rulesOnPage().map((rule) => rule.slice(0, rule.indexOf(' =')));
  expect(new Set(names).size).toBe(names.length);
  for (const rule of rulesOnPage()) {
    const used = rule.slice(rule.indexOf('=') + 1).replace(/"[^"]*"/g, ',').split(/[[\](){},|;]/);
    for (const name of used.map((each) => each.trim()).filter((each) => each !== '')) {
      expect(names.includes(name) || CLASSES.has(name), `${name} in ${rule}`).toBe(true);
    }
  }
}); // prettier-ignore

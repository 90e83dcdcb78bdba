/**
 * The style of the desk: every file of its folder is part of what is served, in the order that is
 * written down, opens with what it is for and stays short; colours come from the palette.
 */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { rootFolder } from '../../src/cli/resources.ts';
import { openOwnFiles, STYLE_ADDRESS, STYLE_FILES } from '../../src/desk/own-files.ts';

const templates = path.join(rootFolder, 'templates', 'desk');
const read = (name: string) => readFileSync(path.join(templates, 'style', `${name}.css`), 'utf8');

describe('the style of the desk', () => {
  it('is every file of its folder, joined in its order', async () => {
    const found = readdirSync(path.join(templates, 'style'));
    expect(found.sort()).toEqual(STYLE_FILES.map((name) => `${name}.css`).sort());
    const served = await openOwnFiles(templates)(STYLE_ADDRESS);
    const text = Buffer.from(served?.body as Uint8Array).toString('utf8');
    expect(text).toBe(STYLE_FILES.map(read).join(''));
  });

  it.each(STYLE_FILES)('%s says what it is for, and stays short', (name) => {
    expect(read(name)).toMatch(/^\/\* [A-Z][^*]{40,}\. \*\//);
    expect(read(name).split('\n').length).toBeLessThan(200);
  });

  it('takes its colours from the palette, but for white paper that stays white', () => {
    const palettes = new Set(['paper', 'print']);
    for (const name of STYLE_FILES.filter((each) => !palettes.has(each))) {
      const colours = read(name).match(/#[\da-f]{3,8}\b(?=[^{}]*;)/gi) ?? [];
      expect(colours.filter((each) => each !== '#ffffff'), name).toEqual([]); // prettier-ignore
    }
  });
});

/**
 * Documents as they would be set now: every edition on each paper, a language that cannot say the
 * pattern, and a page that carries its own protection (Content Security Policy Level 3, hashes).
 */
import { createHash } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestDesk, type OpenedDesk } from './opened.ts';

let desk: OpenedDesk;
beforeAll(async () => {
  desk = await openTestDesk();
  await desk.post('/begin', { starter: 'breakwater-hat' });
});
afterAll(() => desk.close());

const sheet = (query: string) => desk.get(`/patterns/breakwater-hat/sheet.pdf?${query}`);

/** Millimetres, to one. ISO 216 A4 is 210 × 297, US Letter 216 × 279. */
async function paperOf(query: string): Promise<string> {
  const answer = await sheet(query);
  expect(answer.headers.get('content-type')).toBe('application/pdf');
  const data = new Uint8Array(await answer.arrayBuffer());
  const pdf = await getDocument({ data, verbosity: 0 }).promise;
  const [, , width = 0, height = 0] = (await pdf.getPage(1)).view;
  await pdf.destroy();
  return [width, height].map((points) => Math.round((points / 72) * 25.4)).join(' × ');
}

describe('pages as they would be set', () => {
  it.each([
    ['language=de', '210 × 297'],
    ['language=en-US', '216 × 279'],
    ['language=de&paper=Letter&edition=ink-saving', '216 × 279'],
    ['language=de&edition=one-size&size=M', '210 × 297'],
    ['language=xx&paper=A0&edition=no-such', '210 × 297'],
  ])('%s is %s mm', async (query, millimetres) => {
    expect(await paperOf(query)).toBe(millimetres);
  });

  it('sets large print in more pages than standard', async () => {
    const pages = async (query: string) => {
      const data = new Uint8Array(await (await sheet(query)).arrayBuffer());
      const pdf = await getDocument({ data, verbosity: 0 }).promise;
      return pdf.numPages;
    };
    expect(await pages('language=de&edition=large')).toBeGreaterThan(await pages('language=de'));
  });

  it('gives the web page nothing to run and no other style than its own', async () => {
    const answer = await desk.get('/patterns/breakwater-hat/web-page?language=de');
    const policy = answer.headers.get('content-security-policy') ?? '';
    expect(policy).toContain('sandbox');
    expect(policy).not.toContain('unsafe');
    const html = await answer.text();
    const styles = [...html.matchAll(/<style>([\s\S]*?)<\/style>/g)].map(([, style = '']) => style);
    for (const style of styles)
      expect(policy).toContain(createHash('sha256').update(style).digest('base64'));
    expect(html).toContain('lang="de"');
    expect(html).not.toMatch(/<script|\son\w+=|\sstyle=|src="(?!data:)/);
  });

  it('keeps the other choices when one is made', async () => {
    const html = await (
      await desk.get('/patterns/breakwater-hat/pages?language=fr&beside=&edition=large&paper=A4')
    ).text();
    for (const chosen of ['fr', 'large', 'A4'])
      expect(html).toContain(`<option value="${chosen}" selected>`);
    expect(html.match(/data-pdf=/g)).toHaveLength(1);
  });

  it('says which language cannot say the pattern yet', async () => {
    const file = path.join(desk.folder, 'breakwater-hat', 'prose', 'de.json');
    const prose = await readFile(file, 'utf8');
    const texts = JSON.parse(prose) as Record<string, unknown>;
    expect(texts['note.chart']).toBeDefined();
    await writeFile(file, JSON.stringify({ ...texts, 'note.chart': undefined }));
    const answer = await sheet('language=de');
    expect(answer.status).toBe(422);
    expect(await answer.text()).toContain('de cannot say this pattern yet');
    await writeFile(file, prose);
  });
});

/**
 * A designer at the pages in the cloud, by HTTP alone: lays a starter on her shelf, hands a zip in by the
 * form that goes straight to the store, starts a run and waits for its end.
 */
import { unzipSync } from 'fflate';
import { expect } from 'vitest';
import { type Browser, HOME, type Shown } from './browser.ts';
import type { OpenedPages } from './opened-pages.ts';

/** How a page writes what a form holds. */
export const plain = (text: string): string =>
  text
    .replaceAll('&#x3D;', '=')
    .replaceAll('&quot;', '"')
    .replaceAll('&#x27;', '’')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

/** Fails the test where the page does not lead on; gives where. */
export function led({ status, location, html }: Shown): string {
  expect(status, html).toBe(303);
  return location;
}

/** A copy of the starter on the shelf; gives its address. */
export async function begin(browser: Browser, starter = 'breakwater-hat'): Promise<string> {
  return led(await browser.post('/begin', { starter }));
}

export interface UploadForm {
  readonly url: string;
  readonly fields: Readonly<Record<string, string>>;
}

/** The form of the shelf, as the browser would send it. */
export function uploadForm(html: string): UploadForm {
  const [, url = '', rest = ''] = /<form method="post" action="(http[^"]+)"([\s\S]*?)<\/form>/.exec(html) ?? []; // prettier-ignore
  const hidden = rest.matchAll(/type="hidden" name="([^"]+)" value="([^"]*)"/g);
  const fields = Object.fromEntries([...hidden].map(([, name = '', value = '']) => [name, plain(value)])); // prettier-ignore
  return { url: plain(url), fields };
}

/** Posts the file to the store; gives where the store leads the browser, inside the pages. */
export async function sendToStore({ url, fields }: UploadForm, zip: Uint8Array): Promise<string> {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(name, value);
  form.append('file', new Blob([Uint8Array.from(zip)]), 'bundle.zip');
  const { status, headers } = await fetch(url, { method: 'POST', body: form, redirect: 'manual' });
  expect(status).toBe(303);
  const back = headers.get('location') ?? '';
  expect(back.startsWith(`${HOME}/handed-in/`)).toBe(true);
  return back.slice(HOME.length);
}

/** Runs that were started until now have ended. */
export async function endOfRuns({ cloud }: OpenedPages): Promise<readonly string[]> {
  await Promise.all(cloud.machines.runs.values());
  return [...cloud.machines.runs.keys()];
}

/** For sale, each language knowingly unreviewed: who has looked through it is not asked here. */
export function saleForm(pattern: string): FormData {
  const form = new FormData();
  form.append('stage', 'sale');
  const { languages } = JSON.parse(pattern) as { readonly languages: readonly string[] };
  for (const tag of languages) form.append('unreviewed', tag);
  return form;
}

/** Released in the editions that are always made; gives the run. */
export async function release(desk: OpenedPages, browser: Browser, at: string): Promise<string> {
  const before = new Set(await endOfRuns(desk));
  const { bytes } = await browser.get(`${at}/bundle.zip`);
  const pattern = new TextDecoder().decode(unzipSync(bytes)['pattern.json']);
  led(await browser.post(`${at}/runs`, saleForm(pattern)));
  const run = (await endOfRuns(desk)).find((each) => !before.has(each)) ?? '';
  const end = await desk.cloud.machines.runs.get(run);
  expect(end, JSON.stringify(end)).toMatchObject({ status: 'succeeded', state: 'Released' });
  return run;
}

/**
 * The desk over real sockets: who is let in, what is refused, and the way from a starter through a
 * wrong number to its correction. Attacks follow the OWASP cheat sheets on cross-site request forgery
 * and on path traversal, and RFC 9110 section 7.4 (a request for another authority is misdirected).
 */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { followPointer } from '../../src/base/span.ts';
import { callRaw, firstField, openTestDesk, type OpenedDesk } from './opened.ts';

let desk: OpenedDesk;
beforeAll(async () => {
  desk = await openTestDesk();
});
afterAll(() => desk.close());

describe('the door', () => {
  it('lets nobody in without the key', async () => {
    for (const target of ['/', '/desk.js', '/patterns/x', '/?key=wrong'])
      expect((await fetch(desk.base + target)).status, target).toBe(401);
  });

  it('gives its style to the page that turns somebody away, and to no other name or method', async () => {
    const style = await fetch(`${desk.base}/desk.css`);
    expect(style.status).toBe(200);
    expect(style.headers.get('content-type')).toBe('text/css; charset=utf-8');
    // Another site can neither use it nor learn from it that a desk is open here.
    expect(style.headers.get('cross-origin-resource-policy')).toBe('same-origin');
    expect((await fetch(`${desk.base}/desk.css`, { method: 'POST' })).status).toBe(401);
    for (const host of ['evil.example', `evil.example:${desk.port}`])
      expect(await callRaw(desk.port, '/desk.css', { host })).toBe(421);
    for (const target of ['/desk.css/', '/style/paper.css', '//desk.css', '/desk%2ecss'])
      expect(await callRaw(desk.port, target, { host: `127.0.0.1:${desk.port}` }), target).toBe(
        401,
      );
  });

  it('says so in the language of the browser, and offers no way that leads nowhere', async () => {
    const answer = await fetch(desk.base, { headers: { 'accept-language': 'de-DE' } });
    const html = await answer.text();
    expect([answer.status, /<html lang="(\w+)"/.exec(html)?.[1]]).toEqual([401, 'de']);
    expect(html).not.toContain('<form');
  });

  it('exchanges the key once for a cookie that scripts and other sites cannot use', async () => {
    const first = await fetch(desk.address, { redirect: 'manual' });
    expect(first.status).toBe(303);
    expect(first.headers.get('location')).toBe('/');
    const cookie = first.headers.get('set-cookie') ?? '';
    expect(cookie).toContain('HttpOnly');
    expect(cookie).toContain('SameSite=Strict');
    const [pair = ''] = cookie.split(';');
    expect((await fetch(desk.base, { headers: { cookie: pair } })).status).toBe(200);
    expect((await fetch(desk.address, { redirect: 'manual' })).status).toBe(401);
  });

  it.each(['evil.example', 'evil.example:80', '127.0.0.1', 'localhost:1'])(
    'is not %s, whatever a name server says',
    async (host) => {
      expect(await callRaw(desk.port, '/', { host, cookie: desk.cookie })).toBe(421);
    },
  );

  it('takes forms from its own pages only', async () => {
    const send = (headers: Record<string, string>) =>
      fetch(`${desk.base}/begin`, {
        method: 'POST',
        headers: { cookie: desk.cookie, ...headers },
        body: new URLSearchParams({ starter: 'breakwater-hat' }),
        redirect: 'manual',
      });
    expect((await send({})).status).toBe(403);
    expect((await send({ origin: 'http://evil.example' })).status).toBe(403);
    expect((await send({ origin: 'null' })).status).toBe(403);
    const crossed = { origin: desk.base, 'sec-fetch-site': 'cross-site' };
    expect((await send(crossed)).status).toBe(403);
  });

  it('allows a page nothing from elsewhere and no script inside it', async () => {
    const answer = await desk.get('/');
    const policy = answer.headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toContain('unsafe');
    const html = await answer.text();
    expect(html).not.toMatch(/<script(?![^>]*src=)|\son\w+=|\sstyle=|https?:\/\//);
  });

  it.each([
    '/patterns/x/../..%2fx', '/patterns/..%2f..%2fetc', '/patterns/%2e%2e%5c',
    '/files/breakwater-hat/1.0.0/../../../x', '/files/a/1.0.0/%2e%2e/%2e%2e/etc/passwd',
    '/patterns/%', '//etc/passwd', '/patterns/.desk', '/api/releases/..%2f',
  ])('finds nothing at %s', async (target) => {
    const host = `127.0.0.1:${desk.port}`;
    expect(await callRaw(desk.port, target, { host, cookie: desk.cookie })).toBe(404);
  }); // prettier-ignore
});

describe('a pattern on the desk', () => {
  const file = () => path.join(desk.folder, 'breakwater-hat', 'pattern.json');
  let sound = '';

  it('teaches where nothing lies there yet, and begins from a starter', async () => {
    expect(await (await desk.get('/')).text()).toContain('No pattern lies here yet');
    const begun = await desk.post('/begin', { starter: 'breakwater-hat' });
    expect(begun.headers.get('location')).toBe('/patterns/breakwater-hat');
    const page = await (await desk.get('/patterns/breakwater-hat')).text();
    expect(page).toContain('Every number follows in every size.');
    sound = await readFile(file(), 'utf8');
  });

  it('shows a wrong count with its row, corrects it in place, and takes that back', async () => {
    const wrong = sound.replace('126 (133, 140, 147, 154) sts', '126 (134, 140, 147, 154) sts');
    expect(wrong).not.toBe(sound);
    await writeFile(file(), wrong);
    const page = await (await desk.get('/patterns/breakwater-hat')).text();
    expect(page).toMatch(/findings? stands? against a release/);
    expect(page).toContain('<mark>');
    const field = firstField(page);
    const value = followPointer(JSON.parse(sound), field['pointer'] ?? '') as string;
    expect(field['value']).not.toBe(value);
    const made = await desk.post('/patterns/breakwater-hat/correct', { ...field, value });
    expect(made.status).toBe(303);
    expect(await readFile(file(), 'utf8')).toBe(sound);
    expect(await (await desk.get('/patterns/breakwater-hat')).text()).toContain(
      'Every number follows',
    );

    await desk.post('/patterns/breakwater-hat/undo', {});
    expect(await readFile(file(), 'utf8')).toBe(wrong);
    const again = await desk.post('/patterns/breakwater-hat/undo', {});
    expect(again.status).toBe(422);
    await writeFile(file(), sound);
  });

  it('writes nothing over a file that was changed meanwhile, and keeps what was typed', async () => {
    const { tag } = await correction('1.0.0');
    await writeFile(file(), sound.replace('"1.0.0"', '"1.0.1"'));
    const late = await send({ tag, value: '2.0.0' });
    expect(late.status).toBe(409);
    expect(await late.text()).toContain('2.0.0');
    expect(await readFile(file(), 'utf8')).toContain('"1.0.1"');
    await writeFile(file(), sound);
  });

  it('lets one of two corrections from the same page through', async () => {
    const { tag } = await correction('1.0.0');
    const both = await Promise.all(['1.0.2', '1.0.3'].map((value) => send({ tag, value })));
    expect(both.map(({ status }) => status).sort((a, b) => a - b)).toEqual([303, 409]);
    await writeFile(file(), sound);
  });

  it('refuses what would make the pattern unreadable', async () => {
    const { tag } = await correction('1.0.0');
    const refused = await send({ tag, value: 'soon' });
    expect(refused.status).toBe(422);
    expect(await readFile(file(), 'utf8')).toBe(sound);
  });

  async function correction(version: string) {
    const { tagOf } = await import('../../src/shelf/shelf.ts');
    expect(sound).toContain(`"${version}"`);
    return { tag: tagOf(await readFile(file())) };
  }
  const send = (fields: { readonly tag: string; readonly value: string }) =>
    desk.post('/patterns/breakwater-hat/correct', {
      file: 'pattern.json',
      pointer: '/version',
      ...fields,
    });

  it('gives the bundle back as a zip without its history, and takes it in beside the first', async () => {
    const zip = new Uint8Array(
      await (await desk.get('/patterns/breakwater-hat/bundle.zip')).arrayBuffer(),
    );
    const names = Object.keys(unzipSync(zip));
    expect(names).toContain('prose/de.json');
    expect(names.filter((name) => name.includes('history'))).toEqual([]);
    const form = new FormData();
    form.append('zip', new Blob([zip]), 'breakwater-hat.zip');
    const taken = await desk.post('/hand-in', form);
    expect(taken.headers.get('location')).toBe('/patterns/breakwater-hat-2');
  });

  it('takes the files of a folder, and none whose name climbs out of it', async () => {
    const folder = new FormData();
    folder.append('files', new Blob([sound]), 'mine/pattern.json');
    folder.append('files', new Blob(['{}']), 'mine/prose/de.json');
    expect((await desk.post('/hand-in', folder)).headers.get('location')).toBe('/patterns/mine');
    const climbing = new FormData();
    climbing.append('files', new Blob([sound]), 'mine/pattern.json');
    climbing.append('files', new Blob(['x']), 'mine/../../x.json');
    expect((await desk.post('/hand-in', climbing)).status).toBe(422);
    const wrong = new FormData();
    wrong.append('zip', new Blob(['no zip']), 'a.zip');
    expect((await desk.post('/hand-in', wrong)).status).toBe(422);
  });

  it.each([
    ['/languages', ''], ['/follow', '/release'], ['/pins', '/numbers'], ['/stages', '/release'],
    ['/standing', undefined],
  ])('gives %s a heading and a way back as a page, and neither as a part of one', async (part, back) => {
    const html = await (await desk.get(`/patterns/breakwater-hat${part}`)).text();
    expect(html.match(/<h1>[^<]+<\/h1>/g)).toHaveLength(1);
    expect(html).toContain(`<a href="${back === undefined ? '/' : `/patterns/breakwater-hat${back}`}">`);
    const inside = html.slice(html.indexOf('<div id="part">'));
    expect(inside.length).toBeLessThan(html.length);
    expect(inside).not.toContain('<h1');
    expect(inside).not.toContain('Go back');
  }); // prettier-ignore

  it('shows the numbers by size, and a folder that cannot be read', async () => {
    expect(await (await desk.get('/patterns/breakwater-hat/numbers')).text()).toContain(
      'Stitches after each row',
    );
    expect(await (await desk.get('/patterns/breakwater-hat/drawings')).text()).toContain('<svg');
    await mkdir(path.join(desk.folder, 'broken'));
    await writeFile(path.join(desk.folder, 'broken', 'pattern.json'), '{ "format": ');
    const page = await desk.get('/patterns/broken');
    expect(page.status).toBe(200);
    expect((await desk.get('/patterns/broken/numbers')).status).toBe(200);
    expect((await desk.get('/patterns/broken/drawings')).status).toBe(200);
    expect((await desk.get('/patterns/broken/release')).status).toBe(200);
    expect((await desk.get('/')).status).toBe(200);
  });

  it('shows the cover of a pattern on the shelf, small and without what a camera writes', async () => {
    const html = await (await desk.get('/')).text();
    const [, address = ''] = /<img class="cover" src="([^"]+)"/.exec(html) ?? [];
    expect(address).toMatch(/^\/patterns\/breakwater-hat\/cover\?of/);
    const cover = await desk.get(address.replaceAll('&#x3D;', '='));
    expect(cover.headers.get('content-type')).toBe('image/jpeg');
    const bytes = Buffer.from(await cover.arrayBuffer());
    expect(bytes.length).toBeLessThan(40_000);
    expect(bytes.includes('Exif')).toBe(false);
    expect((await desk.get('/patterns/mine/cover')).status).toBe(404);
  });

  it('does not let a long shelf wait for patterns nobody has looked at yet', async () => {
    for (let at = 0; at < 8; at += 1) {
      await mkdir(path.join(desk.folder, `long-${at}`));
      await writeFile(path.join(desk.folder, `long-${at}`, 'pattern.json'), sound);
    }
    const html = await (await desk.get('/')).text();
    expect(html.match(/data-part="[^"]*standing"/g)).toHaveLength(4);
    const standing = await (await desk.get('/patterns/long-7/standing')).text();
    expect(standing).toMatch(/finding|number/);
  });
});

describe('a pattern that is put away', () => {
  it('is asked for once, leaves the shelf, and is taken back from there', async () => {
    const begun = await desk.post('/begin', { starter: 'breakwater-hat' });
    const at = begun.headers.get('location') ?? '';
    const name = at.split('/').at(-1) ?? '';
    expect(await (await desk.get(at)).text()).toContain(`href="${at}/away"`);
    const asks = await (await desk.get(`${at}/away`)).text();
    expect(asks).toContain(`<form method="post" action="${at}/away"`);
    expect((await desk.get('/')).status).toBe(200);

    const put = await desk.post(`${at}/away`, {});
    const shelf = await (await desk.get(put.headers.get('location') ?? '')).text();
    expect(shelf).toContain(`${name} is put away.`);
    expect(shelf).not.toContain(`href="${at}"`);
    expect((await desk.get(at)).status).toBe(404);
    expect((await desk.post(`${at}/away`, {})).status).toBe(404);

    const back = await desk.post(`${at}/back`, {});
    expect(back.headers.get('location')).toBe(at);
    expect((await desk.get(at)).status).toBe(200);
    expect((await desk.post(`${at}/back`, {})).status).toBe(404);
    expect(await (await desk.get('/')).text()).not.toContain('What was put away');
  });

  it('is refused while a run is at work on it, and told so on the page that asked', async () => {
    const begun = await desk.post('/begin', { starter: 'breakwater-hat' });
    const at = begun.headers.get('location') ?? '';
    await desk.post(`${at}/runs`, { stage: 'proof' });
    const refused = await desk.post(`${at}/away`, {});
    expect(refused.status).toBe(409);
    const html = await refused.text();
    expect(html).toContain('This pattern is being published at this very moment.');
    expect(html).toContain(`action="${at}/away"`);
    const [, run = ''] = /data-run="([^"]+)"/.exec(await (await desk.get(`${at}/release`)).text()) ?? []; // prettier-ignore
    await desk.post(`/runs/${run}/cancel`, {});
    await (await desk.get(`/runs/${run}/events`)).text();
    expect((await desk.post(`${at}/away`, {})).status).toBe(303);
  });
});

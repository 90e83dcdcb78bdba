/**
 * What every room of bundles promises, as tests: run against a folder of this machine and against object
 * stores. Each case gets an empty room.
 */
import { describe, expect, it } from 'vitest';
import { correctValue, replaceFile, undoLast } from '../../src/shelf/changes.ts';
import type { BundleRoom } from '../../src/shelf/room.ts';
import { type Change, tagOf } from '../../src/shelf/shelf.ts';
import { skerryFiles } from '../pipeline/studio.ts';

export const AT = new Date('2026-02-01T09:00:00Z');
const PATTERN = 'pattern.json';
const GERMAN = 'prose/de.json';

export const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
const decode = (bytes: Uint8Array | undefined): string => new TextDecoder().decode(bytes);

const tagNow = async (room: BundleRoom, name: string, file: string): Promise<string> =>
  tagOf((await room.files(name)).get(file) ?? new Uint8Array());

/** The German title, from the state of the file that is named. */
export const retitle = (room: BundleRoom, name: string, value: string, tag: string) =>
  room.change(name, AT, correctValue({ file: GERMAN, pointer: '/title', value, tag }));

const put = (room: BundleRoom, name: string, file: string, text: string, tag?: string) =>
  room.change(name, AT, replaceFile({ file, tag, bytes: encode(text), said: 'texts' }));

const FRENCH = JSON.stringify({ title: 'Skerry', summary: 'Un bonnet.', coverAlt: 'Le bonnet.' });

export function roomContract(open: () => Promise<BundleRoom>): void {
  const openWith = async (): Promise<BundleRoom> => {
    const room = await open();
    await room.keep('skerry', skerryFiles());
    return room;
  };
  const titleIn = async (room: BundleRoom): Promise<string> =>
    (JSON.parse(decode((await room.files('skerry')).get(GERMAN))) as { title: string }).title;

  describe('keeping', () => {
    it('gives back what was kept, byte for byte, in order of path', async () => {
      const room = await openWith();
      const files = await room.files('skerry');
      expect([...files.keys()]).toEqual([...skerryFiles().keys()].sort());
      for (const [name, bytes] of skerryFiles())
        expect(Buffer.compare(files.get(name) ?? encode(''), bytes), name).toBe(0);
      expect(await room.history('skerry')).toEqual([]);
    });

    it('gives one file alone, and nothing for a path that is not in the bundle', async () => {
      const room = await openWith();
      expect(decode(await room.file('skerry', GERMAN))).toBe(decode(skerryFiles().get(GERMAN)));
      for (const path of ['prose/xx.json', 'prose', '..', '../skerry/pattern.json', '/etc/hosts', '', '.history/00001.json']) // prettier-ignore
        expect([path, await room.file('skerry', path).catch(() => undefined)]).toEqual([path, undefined]); // prettier-ignore
      await expect(room.file('tern', PATTERN)).rejects.toMatchObject({ kind: 'missing' });
    });

    it('lists the names in order', async () => {
      const room = await open();
      expect(await room.names()).toEqual([]);
      for (const name of ['tern', 'a', 'a-b', 'Skerry']) await room.keep(name, skerryFiles());
      expect(await room.names()).toEqual(['Skerry', 'a', 'a-b', 'tern']);
    });

    it.each([
      ['skerry', 'skerry-2'],
      ['../../skerry', 'skerry-2'],
      ['Grüße/aus\\Skerry', 'Gr-e-aus-Skerry'],
      ['…', 'pattern'],
      ['', 'pattern'],
      ['x'.repeat(300), 'x'.repeat(60)],
    ])('gives %j the plain free name %j', async (wanted, name) => {
      const room = await openWith();
      expect(await room.keep(wanted, skerryFiles({ version: '2.0.0' }))).toBe(name);
      expect(decode((await room.files(name)).get(PATTERN))).toContain('2.0.0');
      expect(decode((await room.files('skerry')).get(PATTERN))).toContain('1.0.0');
    });

    it.each(['', '.', '..', '../skerry', 'skerry/../skerry', 'skerry/', 'tern', 'Skerry', 'x'.repeat(400), 'sk\u0000', '__proto__'])(
      'knows nothing of %j',
      async (name) => {
        const room = await openWith();
        const missing = { name: 'Fault', kind: 'missing' };
        await expect(room.files(name)).rejects.toMatchObject(missing);
        await expect(room.state(name)).rejects.toMatchObject(missing);
        await expect(room.history(name)).rejects.toMatchObject(missing);
        await expect(room.change(name, AT, undoLast)).rejects.toMatchObject(missing);
      },
    ); // prettier-ignore
  });

  describe('a change', () => {
    it('changes one value, and is told in the history', async () => {
      const room = await openWith();
      const [state, tag] = [await room.state('skerry'), await tagNow(room, 'skerry', GERMAN)];
      const made = await retitle(room, 'skerry', 'Schäre', tag);
      expect(made).toEqual({
        number: 1,
        at: AT.toISOString(),
        file: GERMAN,
        pointer: '/title',
        before: 'Skerry',
        after: 'Schäre',
        tag: await tagNow(room, 'skerry', GERMAN),
      });
      expect(await titleIn(room)).toBe('Schäre');
      expect(await room.history('skerry')).toEqual([made]);
      expect(await room.state('skerry')).not.toBe(state);
      expect([...(await room.files('skerry')).keys()]).toEqual([...skerryFiles().keys()].sort());
    });

    it('typed over an older state is refused, and nothing is written', async () => {
      const room = await openWith();
      const tag = await tagNow(room, 'skerry', GERMAN);
      await retitle(room, 'skerry', 'Schäre', tag);
      const state = await room.state('skerry');
      await expect(retitle(room, 'skerry', 'Klippe', tag)).rejects.toMatchObject({
        kind: 'conflict',
        place: GERMAN,
      });
      expect(await titleIn(room)).toBe('Schäre');
      expect(await room.history('skerry')).toHaveLength(1);
      expect(await room.state('skerry')).toBe(state);
    });

    it('that throws writes nothing', async () => {
      const room = await openWith();
      const state = await room.state('skerry');
      const refuse = () => Promise.reject(new Error('no'));
      await expect(room.change('skerry', AT, refuse)).rejects.toThrow('no');
      expect(await room.state('skerry')).toBe(state);
      expect(await room.history('skerry')).toEqual([]);
    });

    it('at the same time as another of the same file: one is made, the other told', async () => {
      const room = await openWith();
      const tag = await tagNow(room, 'skerry', GERMAN);
      const titles = ['Schäre', 'Klippe', 'Riff', 'Holm'];
      const ends = await Promise.allSettled(
        titles.map((title) => retitle(room, 'skerry', title, tag)),
      );
      const refused = ends.flatMap((end) => (end.status === 'rejected' ? [end.reason] : []));
      expect(refused).toHaveLength(3);
      for (const reason of refused) expect(reason).toMatchObject({ kind: 'conflict' });
      expect(await room.history('skerry')).toHaveLength(1);
    });

    it('at the same time as others of other files: all are made, one after the other', async () => {
      const room = await openWith();
      const languages = ['fr', 'da', 'nb', 'sv', 'nl'];
      await Promise.all(languages.map((tag) => put(room, 'skerry', `prose/${tag}.json`, FRENCH)));
      const history = await room.history('skerry');
      expect(history.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5]);
      expect(new Set(history.map(({ file }) => file)).size).toBe(5);
      expect((await room.files('skerry')).size).toBe(skerryFiles().size + 5);
    });

    it.each([
      '../pattern.json',
      '/etc/pattern.json',
      'prose\\de.json',
      'prose/../pattern.json',
      'con.json',
      'photos/cover.png',
      'a/b/c/d/e/f/g.json',
      `${'x'.repeat(200)}.json`,
      'prose/d\u0000e.json',
    ])('to a file named %j is refused', async (file) => {
      const room = await openWith();
      await expect(put(room, 'skerry', file, FRENCH)).rejects.toMatchObject({ kind: 'input' });
      expect(await room.history('skerry')).toEqual([]);
    });

    it('that would make the bundle unreadable is refused', async () => {
      const room = await openWith();
      const tag = await tagNow(room, 'skerry', PATTERN);
      await expect(put(room, 'skerry', PATTERN, '{}', tag)).rejects.toMatchObject({
        kind: 'input',
        place: PATTERN,
      });
    });
  });

  describe('taking back', () => {
    const undo = (room: BundleRoom): Promise<Change> => room.change('skerry', AT, undoLast);

    it('gives the file back byte for byte, and is a change itself', async () => {
      const room = await openWith();
      await retitle(room, 'skerry', 'Schäre', await tagNow(room, 'skerry', GERMAN));
      expect(await undo(room)).toMatchObject({
        number: 2,
        undoes: 1,
        before: 'Schäre',
        after: 'Skerry',
      });
      const german = (await room.files('skerry')).get(GERMAN);
      expect(decode(german)).toBe(decode(skerryFiles().get(GERMAN)));
      expect(await room.history('skerry')).toHaveLength(2);
    });

    it('goes back through a chain of changes to the first', async () => {
      const room = await openWith();
      for (const title of ['Schäre', 'Klippe', 'Riff'])
        await retitle(room, 'skerry', title, await tagNow(room, 'skerry', GERMAN));
      const seen: string[] = [];
      for (let each = 0; each < 3; each += 1) {
        await undo(room);
        seen.push(await titleIn(room));
      }
      expect(seen).toEqual(['Klippe', 'Schäre', 'Skerry']);
      expect((await room.history('skerry')).map(({ undoes }) => undoes)).toEqual([
        undefined,
        undefined,
        undefined,
        3,
        2,
        1,
      ]);
      await expect(undo(room)).rejects.toMatchObject({ kind: 'missing' });
      await retitle(room, 'skerry', 'Holm', await tagNow(room, 'skerry', GERMAN));
      expect(await undo(room)).toMatchObject({ number: 8, undoes: 7 });
      expect(await titleIn(room)).toBe('Skerry');
    });

    it('takes a file away that the change had made, and makes it again', async () => {
      const room = await openWith();
      await put(room, 'skerry', 'prose/fr.json', FRENCH);
      expect((await room.files('skerry')).has('prose/fr.json')).toBe(true);
      await undo(room);
      expect((await room.files('skerry')).has('prose/fr.json')).toBe(false);
      await put(room, 'skerry', 'prose/fr.json', FRENCH);
      expect(decode((await room.files('skerry')).get('prose/fr.json'))).toBe(FRENCH);
    });

    it('is refused where there is nothing to take back', async () => {
      const room = await openWith();
      await expect(undo(room)).rejects.toMatchObject({ kind: 'missing' });
    });
  });

  describe('putting away', () => {
    const away = async (room: BundleRoom) => (await room.away()).map(({ name }) => name);

    it('takes a bundle off the shelf, and nothing else', async () => {
      const room = await openWith();
      await room.keep('tern', skerryFiles());
      expect(await room.putAway('skerry', AT)).toEqual({ name: 'skerry', at: AT.toISOString() });
      expect(await room.names()).toEqual(['tern']);
      expect(await room.away()).toEqual([{ name: 'skerry', at: AT.toISOString() }]);
      for (const look of ['state', 'files', 'history'] as const)
        await expect(room[look]('skerry'), look).rejects.toMatchObject({ kind: 'missing' });
      await expect(room.file('skerry', PATTERN)).rejects.toMatchObject({ kind: 'missing' });
      await expect(retitle(room, 'skerry', 'Holm', '')).rejects.toMatchObject({ kind: 'missing' });
      await expect(room.putAway('skerry', AT)).rejects.toMatchObject({ kind: 'missing' });
    });

    it('gives all of it back: files, history, state, and what may be taken back', async () => {
      const room = await openWith();
      await retitle(room, 'skerry', 'Schäre', await tagNow(room, 'skerry', GERMAN));
      const [files, state, history] = [await room.files('skerry'), await room.state('skerry'), await room.history('skerry')]; // prettier-ignore
      await room.putAway('skerry', AT);
      expect(await room.takeBack('skerry')).toBe('skerry');
      expect(await room.names()).toEqual(['skerry']);
      expect(await room.away()).toEqual([]);
      expect(await room.files('skerry')).toEqual(files);
      expect([await room.state('skerry'), await room.history('skerry')]).toEqual([state, history]);
      await room.change('skerry', AT, undoLast);
      expect(await titleIn(room)).toBe('Skerry');
    });

    it('keeps its name for it, so that no run and no address ever means two bundles', async () => {
      const room = await openWith();
      await room.putAway('skerry', AT);
      expect(await room.keep('skerry', skerryFiles({ version: '2.0.0' }))).toBe('skerry-2');
      expect(await room.takeBack('skerry')).toBe('skerry');
      expect(decode((await room.files('skerry')).get(PATTERN))).toContain('1.0.0');
      expect(await room.names()).toEqual(['skerry', 'skerry-2']);
    });

    it('may be done again and again, and lists the latest first', async () => {
      const room = await openWith();
      await room.keep('tern', skerryFiles());
      await room.putAway('skerry', AT);
      await room.putAway('tern', new Date('2026-02-02T09:00:00Z'));
      expect(await away(room)).toEqual(['tern', 'skerry']);
      await room.takeBack('skerry');
      await room.putAway('skerry', new Date('2026-02-03T09:00:00Z'));
      expect(await away(room)).toEqual(['skerry', 'tern']);
    });

    it('by several at once puts it away once, and loses nothing', async () => {
      const room = await openWith();
      const ends = await Promise.allSettled([1, 2, 3].map(() => room.putAway('skerry', AT)));
      expect(ends.some(({ status }) => status === 'fulfilled')).toBe(true);
      expect([await room.names(), await away(room)]).toEqual([[], ['skerry']]);
      await Promise.allSettled([1, 2, 3].map(() => room.takeBack('skerry')));
      expect([await room.names(), await away(room)]).toEqual([['skerry'], []]);
      expect((await room.files('skerry')).size).toBe(skerryFiles().size);
    });

    it('at the same time as a change leaves the change made, or told as refused', async () => {
      const room = await openWith();
      const tag = await tagNow(room, 'skerry', GERMAN);
      const [made] = await Promise.allSettled([
        retitle(room, 'skerry', 'Schäre', tag),
        room.putAway('skerry', AT),
      ]);
      await room.takeBack('skerry');
      expect(await titleIn(room)).toBe(made?.status === 'fulfilled' ? 'Schäre' : 'Skerry');
    });

    it.each(['tern', '', '..', '../skerry', 'skerry/..', '.away', '.', 'x'.repeat(300)])(
      'of %j, which is not there, is refused, and taking it back too',
      async (name) => {
        const room = await openWith();
        await expect(room.putAway(name, AT)).rejects.toMatchObject({ kind: 'missing' });
        await expect(room.takeBack(name)).rejects.toMatchObject({ kind: 'missing' });
        expect(await room.names()).toEqual(['skerry']);
      },
    );
  });
}

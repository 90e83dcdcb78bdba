/**
 * The technical editor's packet: every number of a pattern once, with what holds it and how it follows;
 * the workbook read by another reader; what changed since the last packet found number by number.
 */
import { unzipSync } from 'fflate';
import fc from 'fast-check';
import readExcelFile from 'read-excel-file/node';
import { beforeAll, describe, expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import { editorSheets } from '../../src/packet/editor/book.ts';
import { comparePackets } from '../../src/packet/editor/changes.ts';
import { editorDocument } from '../../src/packet/editor/document.ts';
import { type EditorPacket, gatherPacket } from '../../src/packet/editor/packet.ts';
import { type PacketRecord, readRecord, writeRecord } from '../../src/packet/editor/record.ts';
import { writeSheets } from '../../src/packet/sheets/excel.ts';
import { assembleBundle } from '../../src/pattern/bundle/load.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { pinNumbers } from '../../src/pattern/checks/pins.ts';
import type { CheckedPattern } from '../../src/pattern/pattern.ts';
import { printDocument } from '../../src/press/print.ts';
import { writeText } from '../../src/press/text/write-text.ts';
import { dataWith } from '../grading/bundle.ts';
import { equipment, starter } from '../shop/starters.ts';

async function packetFor(checked: CheckedPattern, since?: PacketRecord): Promise<EditorPacket> {
  const language = (await equipment()).languages.get(checked.pattern.bundle.data.language)!;
  const order = { checked, findings: checked.findings, language };
  return gatherPacket(since ? { ...order, since } : order);
}

const checkedWith = (more: Parameters<typeof dataWith>[0]): CheckedPattern =>
  checkPattern(assembleBundle(dataWith(more), new Map(), new Map()));

let hat: EditorPacket;

beforeAll(async () => {
  hat = await packetFor(await starter('breakwater-hat'));
});

const numbersOf = ({ entries }: EditorPacket) => entries.flatMap(({ numbers }) => numbers);

describe('the numbers', () => {
  it('are all there, once, and numbered in the order of the pages', () => {
    const pins = pinNumbers(hat.order.checked.pattern);
    const values = numbersOf(hat).flatMap((each) => each.values.filter((value) => value !== null));
    expect(values.length).toBe(pins.total);
    const wanted = pins.numbers.map(({ number }) => number.value).sort((a, b) => a - b);
    expect([...values].sort((a, b) => a - b)).toEqual(wanted);
    expect(numbersOf(hat).map(({ number }) => number)).toEqual(
      numbersOf(hat).map((_, at) => at + 1),
    );
  });

  it('name what holds them: a check, nothing, or the reason why nothing can', () => {
    for (const { holding, heldBy, missed, reason } of numbersOf(hat)) {
      if (holding === 'held') expect(heldBy.length).toBeGreaterThan(0);
      if (holding === 'unheld') expect(missed.length).toBeGreaterThan(0);
      if (holding === 'free') expect(reason).toMatch(/\w/);
    }
    const loose = numbersOf(hat).filter(({ holding }) => holding === 'unheld');
    expect(loose.length === 0).toBe(hat.tally.total === hat.tally.held + hat.tally.free);
  });

  it('follow as a handbook reckons: count ÷ gauge × 4, and how far the rounding is off', async () => {
    // 97 sts at 20 over 4 in are 19.4 in; 19½ is stated, a tenth more.
    const measurements = [
      { id: 'width', name: 'width', letter: 'B', size: { in: '19½ (21½, 23½)' }, from: { width: 'back/cast-on' } },
    ]; // prettier-ignore
    const packet = await packetFor(checkedWith({ measurements }));
    const width = packet.entries.find(({ key }) => key === '/measurements/width/size/in');
    const { derivation, heldBy } = width!.numbers[0]!;
    expect(derivation?.worked?.values[0]).toBeCloseTo(19.4, 9);
    expect(derivation?.off?.values[0]).toBeCloseTo(0.1, 9);
    expect(derivation?.says).toBe('the stitches at back/cast-on');
    expect(heldBy[0]).toBe('measure/does-not-follow');
  });

  it('carry their rule, the exact amount and the deviation from what was wanted', async () => {
    // (34 + 4) ÷ 2 = 19 in at 5 sts an inch are 95, and 2 are 97: nothing is off; 38 and 42 in as well.
    const numbers = [
      { id: 'back', unit: 'sts', rule: '(body bust + 4 in) / 2 at body + 2 sts, nearest odd', value: '97 (107, 117)', places: ['back/cast-on'] },
    ]; // prettier-ignore
    const packet = await packetFor(checkedWith({ numbers }));
    const [rule] = packet.entries.find(({ key }) => key === '/numbers/back/value')!.numbers;
    expect(rule!.derivation?.says).toMatch(
      /^\(body bust \+ 4 in\) .* 20 sts and 28 rows over 4 in$/,
    );
    expect(rule!.derivation?.worked?.values).toEqual([97, 107, 117]);
    expect(rule!.derivation?.off?.values).toEqual([0, 0, 0]);
    const castOn = numbersOf(packet).find(({ what }) => what === 'Cast on # sts');
    expect(castOn?.derivation?.says).toMatch(/body bust/);
  });
});

describe('the workbook', () => {
  it('is read by another reader, with numbers as numbers and what nothing holds first', async () => {
    const bytes = await writeSheets(editorSheets(hat));
    const sheets = await readExcelFile(Buffer.from(bytes));
    expect(sheets.map(({ sheet }) => sheet)).toEqual(['Numbers', 'Grade', 'Warnings', 'Changes']);
    const [head, ...rows] = sheets[0]!.data;
    const at = (name: string) => head!.indexOf(name);
    expect(rows.length).toBe(numbersOf(hat).length);
    const states = rows.map((row) => row[at('Holding')] === 'nothing holds it');
    expect(states).toEqual([...states].sort((a, b) => Number(b) - Number(a)));
    for (const row of rows) expect(typeof row[at('XS')]).toMatch(/number|object/);
    expect(head).toContain('Checked by');
    const grade = sheets[1]!.data;
    const stated = grade.find(
      ([name, what]) => name === 'A brim circumference' && what === 'stated',
    );
    expect(stated?.slice(3)).toEqual([18, 19, 20, 21, 22]);
    const step = grade.find(
      ([name, what]) => name === 'A brim circumference' && /step/.test(String(what)),
    );
    expect(step?.slice(3)).toEqual([null, 1, 1, 1, 1]);
  });

  it('has frozen heads, filters and widths on every sheet (ECMA-376, part 1, 18.3.1)', async () => {
    const parts = unzipSync(await writeSheets(editorSheets(hat)));
    for (const number of [1, 2]) {
      const xml = new TextDecoder().decode(parts[`xl/worksheets/sheet${number}.xml`]);
      expect(xml).toMatch(/<pane [^>]*ySplit="1"[^>]*state="frozen"/);
      expect(xml).toMatch(/<autoFilter ref="A1:/);
      expect(xml).toMatch(/<col min="1" max="1" width="\d/);
    }
  });

  it('is the same bytes every time', async () => {
    const [one, other] = [
      await writeSheets(editorSheets(hat)),
      await writeSheets(editorSheets(hat)),
    ];
    expect(Buffer.from(one).equals(Buffer.from(other))).toBe(true);
  });
});

describe('the pages', () => {
  it('say what the packet says, and the proof finds nothing', async () => {
    const { templates, fonts } = await equipment();
    const document = editorDocument(hat, templates);
    const printed = await printDocument(document, fonts);
    expect(printed.findings).toEqual([]);
    const text = writeText(document);
    expect(text.indexOf('Numbers that nothing holds')).toBeLessThan(text.indexOf('Every number'));
    expect(text).toMatch(/Signed/);
    expect(text).toMatch(/Caution: wool/);
  });

  it('have the figures of the language the pattern is written in', async () => {
    const { languages, templates } = await equipment();
    const german = { ...hat, order: { ...hat.order, language: languages.get('de')! } };
    const [english, said] = [hat, german].map((each) => writeText(editorDocument(each, templates)));
    expect(english).toMatch(/C hat depth, in[ |·]+8\.25/);
    expect(said).toMatch(/C hat depth, in[ |·]+8,25/);
  });

  it('tell each grade curve in words', async () => {
    const { templates } = await equipment();
    const blocks = JSON.stringify(editorDocument(hat, templates).blocks);
    expect(blocks).toContain(
      'A, brim circumference, in in: XS 18, S 19, M 20, L 21, XL 22; body head: XS 20',
    );
  });

  it('list accepted warnings with their reasons, and findings that are open', async () => {
    // Bust falls from M to L: a warning, until the designer says why.
    const falling = { measurements: [
      { id: 'bust', name: 'bust', letter: 'A', size: { in: '38 (42, 40)' }, from: { given: true } },
    ] }; // prettier-ignore
    const open = checkedWith(falling);
    const [warning] = open.findings.filter(({ severity }) => severity === 'warning');
    const { code, where } = warning!;
    const accepted = [{ code, where: where.pointer, reason: 'The L is cut differently.' }];
    const packet = await packetFor(
      checkedWith({ ...falling, accepted }),
      (await packetFor(open)).record,
    );
    expect(packet.accepted.map((each) => each.accepted)).toContain('The L is cut differently.');
    expect(packet.changes).toContainEqual(expect.objectContaining({ kind: 'finding accepted' }));
    const text = writeText(editorDocument(packet, (await equipment()).templates));
    expect(text).toContain('The L is cut differently.');
  });
});

describe('changes since the last packet', () => {
  const recordWith = async (change: (record: PacketRecord) => void): Promise<PacketRecord> => {
    const copy = structuredClone(hat.record);
    change(copy);
    return readRecord(writeRecord(copy), 'record.json');
  };

  it('are none against itself', () => {
    expect(comparePackets(readRecord(writeRecord(hat.record), 'a.json'), hat.record)).toEqual([]);
  });

  it('name the number and the sizes, for any one number of any entry', async () => {
    const places = hat.record.entries.flatMap(({ numbers }, entry) =>
      numbers.flatMap(({ values }, number) => values.map((_, value) => ({ entry, number, value }))),
    );
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...places), async ({ entry, number, value }) => {
        const old = await recordWith(({ entries }) => {
          const own = entries[entry]!;
          const list = own.numbers[number]!.values;
          list[value] = (list[value] ?? 0) + 1;
          // The line read otherwise, too.
          if (own.text !== '')
            own.text = `${own.text} `.replace(/\d/, (digit) => String(9 - Number(digit)));
        });
        const is = hat.record.entries[entry]!;
        const sizes = is.numbers[number]!.values.length === 1 ? [] : [hat.record.sizes[value]];
        expect(comparePackets(old, hat.record)).toEqual([
          expect.objectContaining({ kind: 'number', part: is.part, place: is.place, sizes }),
        ]);
      }),
      { numRuns: 60 },
    );
  });

  it('find a line that was put in, and leave those after it alone', async () => {
    const at = hat.record.entries.findIndex(({ text }) => text.startsWith('Rnd 7:'));
    const old = await recordWith(({ entries }) => void entries.splice(at, 1));
    expect(comparePackets(old, hat.record)).toEqual([
      expect.objectContaining({ kind: 'added', place: 'round 7' }),
    ]);
    expect(comparePackets(hat.record, old)).toEqual([
      expect.objectContaining({ kind: 'removed', place: 'round 7' }),
    ]);
  });

  it('compare sizes by name', async () => {
    const old = await recordWith((record) => {
      record.sizes = record.sizes.slice(1);
      for (const { numbers } of record.entries)
        for (const number of numbers)
          if (number.values.length > 1) number.values = number.values.slice(1);
    });
    expect(comparePackets(old, hat.record).map(({ kind }) => kind)).toEqual(['size added']);
  });

  it.each([
    { what: 'no JSON', text: '{', says: /no JSON/ },
    { what: 'another JSON', text: '{"format":"castoff/1"}', says: /not the record of a packet/ },
  ])('refuse $what', ({ text, says }) => {
    const read = () => readRecord(new TextEncoder().encode(text), 'old.json');
    expect(read).toThrow(says);
    expect(read).toThrow(Fault);
  });

  it('refuse the record of another pattern', async () => {
    const other = await recordWith((record) => void (record.pattern = 'tideline-socks'));
    expect(() => comparePackets(other, hat.record)).toThrow(/tideline-socks/);
  });
});

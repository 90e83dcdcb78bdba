/** Files that mean harm or are broken end in a fault that names the place, and never run long. */
import { describe, expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import { bundleOf, bytesOf, send, take } from './room.ts';

const bundle = bundleOf({ title: 'Breakwater Hat', summary: 'A hat in 5 sizes.' });
const sent = send(bundle).xliff!;
const before = (text: string) => sent.replace('<xliff', `${text}<xliff`);

function faultOf(bytes: Uint8Array): Fault {
  try {
    take(bundle, bytes);
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
  throw new Error('the file was taken');
}

describe('refused before anything is read from it', () => {
  it.each([
    ['an external entity', before('<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>'), /declares a document type/],
    ['entities that grow', before(`<!DOCTYPE x [<!ENTITY a "ha">${Array.from({ length: 30 }, (_, n) => `<!ENTITY a${n} "${'&a;'.repeat(10)}">`).join('')}]>`), /declares a document type/],
    ['an external schema', before('<!DOCTYPE xliff SYSTEM "http://example.org/x.dtd">'), /declares a document type/],
    ['an entity nobody declared', sent.replace('Breakwater', '&tide;'), /line \d+, column \d+: not XML/],
    ['elements that do not match', sent.replace('</source>', '</target>'), /not XML/],
    ['half a file', sent.slice(0, -200), /not XML/],
    ['a control character', sent.replace('Breakwater', 'Break\u0007'), /not XML/],
    ['an attribute given twice', sent.replace('version="2.1"', 'version="2.1" version="2.1"'), /not XML/],
    ['a prefix nobody declared', sent.replace('<notes>', '<tool:x/><notes>'), /not XML/],
    ['elements without end', sent.replace('<notes>', '<g>'.repeat(5000)), /nested deeper than 40/],
    ['too many elements', sent.replace('<notes>', `<notes>${'<a/>'.repeat(100_001)}`), /more than 100000 elements/],
    ['no file at all', '', /not XML|empty/],
    ['JSON', '{"title":"x"}', /not XML/],
    ['a web page', '<html><body/></html>', /the file is <html>, not <xliff>/],
    ['XLIFF 1.2', '<xliff version="1.2" xmlns="urn:oasis:names:tc:xliff:document:1.2"/>', /XLIFF 1\.2; 2\.0 to 2\.2 are read/],
    ['a version to come', sent.replace('version="2.1"', 'version="3.0"'), /XLIFF 3\.0/],
    ['no target language', sent.replace(' trgLang="de"', ''), /which language/],
    ['an unknown target language', sent.replace('trgLang="de"', 'trgLang="tlh"'), /translated into tlh/],
    ['the language it is written in', sent.replace('trgLang="de"', 'trgLang="en-US"'), /translated into en-US/],
    ['an encoding we do not read', sent.replace('UTF-8', 'windows-1252'), /windows-1252/],
  ])('%s', (_, text, wanted) => {
    const fault = faultOf(bytesOf(text));
    expect(fault.kind).toBe('input');
    expect(fault.message).toMatch(wanted);
    expect(fault.place).toBe('sent.xlf');
    expect(fault.remedy).toBeDefined();
  }); // prettier-ignore

  it('bytes that are no text', () => {
    expect(faultOf(new Uint8Array([0x3c, 0xff, 0xfe, 0x3e])).message).toMatch(/not UTF-8/);
  });

  it('a file larger than any pattern', () => {
    expect(faultOf(new Uint8Array(9 * 1024 * 1024)).message).toMatch(/at most/);
  });
});

it('keys that mean something to the language are keys like any other', () => {
  const unit = /    <unit id="title"[^]*?<\/unit>\n/.exec(sent)![0];
  for (const name of ['constructor', '__proto__', 'toString']) {
    const file = sent.replace(unit, unit.replaceAll('title', name).replace('</source>', '</source><target>Ü</target>')); // prettier-ignore
    expect(take(bundle, file).findings[0]?.code).toBe('translation/unknown-segment');
  }
});

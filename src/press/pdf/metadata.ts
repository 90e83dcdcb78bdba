/**
 * What the file says about itself, twice over as archives demand: the document information dictionary
 * and XMP (ISO 16684-1), with the claims of PDF/A-2a (ISO 19005-2, 6.6.4) and PDF/UA-1 (ISO 14289-1,
 * 5). The only date is the date of issue, at midnight UTC, so that a file does not know its own hour.
 */
import { assert } from '../../base/assert.ts';
import type { Document } from '../document.ts';
import { add, type PDFContext, type PDFRef, plainStream, readable, text } from './objects.ts';

/** What the writer needs of a document besides its frames. */
export type DocumentFacts = Pick<
  Document,
  'title' | 'author' | 'subject' | 'keywords' | 'language' | 'direction' | 'issued'
>;

const PRODUCER = 'Castoff';

export function addInformation(context: PDFContext, facts: DocumentFacts): PDFRef {
  const date = text(`D:${dateOf(facts).replaceAll('-', '')}000000Z`);
  return add(context, {
    Title: text(facts.title),
    Author: told(facts.author),
    Subject: told(facts.subject),
    Keywords: told(facts.keywords.join(', ')),
    Creator: text(PRODUCER),
    Producer: text(PRODUCER),
    CreationDate: date,
    ModDate: date,
  });
}

/** Both places leave out what the document does not say. */
const told = (value: string) => (value === '' ? undefined : text(value));

function dateOf({ issued }: DocumentFacts): string {
  assert(/^\d{4}-\d{2}-\d{2}$/.test(issued), `not a date: ${issued}`);
  return issued;
}

/** Left legible: archives and search tools read it without unpacking. */
export function addXmp(context: PDFContext, facts: DocumentFacts): PDFRef {
  const bytes = Buffer.from(xmpOf(facts), 'utf8');
  return plainStream(context, bytes, { Type: 'Metadata', Subtype: 'XML' });
}

const escaped = (value: string): string =>
  readable(value).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

const inWords = (value: string): string =>
  `<rdf:Alt><rdf:li xml:lang="x-default">${escaped(value)}</rdf:li></rdf:Alt>`;

/** A property, or nothing where there is nothing to say. */
const property = (name: string, said: boolean, value: string): string =>
  said ? `\n   <${name}>${value}</${name}>` : '';

const listOf = (kind: 'Seq' | 'Bag', values: readonly string[]): string =>
  `<rdf:${kind}>${values.map((value) => `<rdf:li>${escaped(value)}</rdf:li>`).join('')}</rdf:${kind}>`;

export function xmpOf(facts: DocumentFacts): string {
  const { title, author, subject, keywords, language } = facts;
  const date = `${dateOf(facts)}T00:00:00Z`;
  return `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
 <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
  <rdf:Description rdf:about=""
    xmlns:dc="http://purl.org/dc/elements/1.1/"
    xmlns:xmp="http://ns.adobe.com/xap/1.0/"
    xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
    xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/"
    xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
   <dc:format>application/pdf</dc:format>
   <dc:title>${inWords(title)}</dc:title>
   <dc:language>${listOf('Bag', [language])}</dc:language>${[
     property('dc:creator', author !== '', listOf('Seq', [author])),
     property('dc:description', subject !== '', inWords(subject)),
     property('dc:subject', keywords.length > 0, listOf('Bag', keywords)),
     property('pdf:Keywords', keywords.length > 0, escaped(keywords.join(', '))),
   ].join('')}
   <pdf:Producer>${PRODUCER}</pdf:Producer>
   <xmp:CreatorTool>${PRODUCER}</xmp:CreatorTool>
   <xmp:CreateDate>${date}</xmp:CreateDate>
   <xmp:ModifyDate>${date}</xmp:ModifyDate>
   <xmp:MetadataDate>${date}</xmp:MetadataDate>
   <pdfaid:part>2</pdfaid:part>
   <pdfaid:conformance>A</pdfaid:conformance>
   <pdfuaid:part>1</pdfuaid:part>
  </rdf:Description>
${ACCESSIBILITY_SCHEMA}
 </rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>`;
}

/** PDF/A wants every schema it does not know described; the one of PDF/UA is such (6.6.2.3). */
const ACCESSIBILITY_SCHEMA = `  <rdf:Description rdf:about=""
    xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
    xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"
    xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
   <pdfaExtension:schemas>
    <rdf:Bag>
     <rdf:li rdf:parseType="Resource">
      <pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>
      <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
      <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
      <pdfaSchema:property>
       <rdf:Seq>
        <rdf:li rdf:parseType="Resource">
         <pdfaProperty:name>part</pdfaProperty:name>
         <pdfaProperty:valueType>Integer</pdfaProperty:valueType>
         <pdfaProperty:category>internal</pdfaProperty:category>
         <pdfaProperty:description>The part of ISO 14289 the file conforms to</pdfaProperty:description>
        </rdf:li>
       </rdf:Seq>
      </pdfaSchema:property>
     </rdf:li>
    </rdf:Bag>
   </pdfaExtension:schemas>
  </rdf:Description>`;

/**
 * Addresses of links outside the document, as a URI of plain characters (RFC 3986). What a person has
 * typed is mended where its meaning is plain; an address that could run something is refused.
 */
import { Fault } from '../../base/fault.ts';

/** Schemes that only open a page or a letter. */
const OPENS = /^(?:https?:\/\/|mailto:)\S/iu;
/** A per cent sign that begins no encoded byte. */
const LOOSE_PERCENT = /%(?![0-9a-f]{2})/giu;
/** Everything that may not stand in a URI as it is, per cent signs aside. */
const FOREIGN = /[^!#$%&'()*+,\-./0-9:;=?@A-Z[\]_a-z~]/gu;

export function uriOf(address: string): string {
  const trimmed = address.trim();
  if (!OPENS.test(trimmed)) {
    throw new Fault('input', 'a link leads to an address that is neither a page nor a letter', {
      place: address,
      remedy: 'begin the address with https:// or mailto:',
    });
  }
  return trimmed
    .replace(/\p{Cs}/gu, '\ufffd')
    .replace(LOOSE_PERCENT, '%25')
    .replace(FOREIGN, (character) => encodeURIComponent(character));
}

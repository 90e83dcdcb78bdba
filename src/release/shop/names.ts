/**
 * Names of files that every disk, mail and upload form takes: small letters of ASCII, digits, hyphens,
 * one full stop before the ending, not too long, and none of the names that a system keeps for itself.
 * Two names that differ stay two names.
 */
import { SHOP_LIMITS } from '../../base/limits.ts';
import { hashBytes } from '../../base/hash.ts';

/** Device names of DOS, which Windows refuses with any ending (Microsoft, “Naming files”). */
const KEPT = /^(con|prn|aux|nul|com[0-9]|lpt[0-9])$/;
const HASH_LETTERS = 6;

/** `pt-BR/Böe 1.JPG` → `boe-1-3f9a02.jpg`: of the last step of a path. */
export function safeName(path: string): string {
  const name = path.split('/').at(-1) ?? path;
  const at = name.lastIndexOf('.');
  const [stem, ending] = at >= 0 ? [name.slice(0, at), name.slice(at + 1)] : [name, ''];
  const plainEnding = plain(ending).slice(0, 8);
  const room = SHOP_LIMITS.nameLetters - plainEnding.length - 1;
  const candidate = plain(stem);
  const isKept = candidate !== '' && candidate === stem.toLowerCase().replaceAll('.', '-');
  const fits = isKept && candidate.length <= room && !KEPT.test(candidate);
  const short = candidate.slice(0, room - HASH_LETTERS - 1).replace(/-$/, '');
  const marked = [short, hashBytes(name).slice(0, HASH_LETTERS)].filter(Boolean).join('-');
  const safe = fits ? candidate : marked;
  return plainEnding === '' ? safe : `${safe}.${plainEnding}`;
}

const plain = (text: string): string =>
  text
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '');

/** A language as a folder: `pt-BR` → `pt-br`. */
export const safeFolder = (language: string): string => plain(language);

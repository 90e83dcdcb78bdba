/**
 * The worked examples from public-domain books (1840–1918 and three leaflets), each row with the count
 * before and after it as worked out by hand. Sources stand in the case files.
 */
import { readFileSync } from 'node:fs';

type BySize<T> = T | readonly T[];

export interface CaseRow {
  readonly label: string;
  readonly text: BySize<string>;
  readonly countBefore: BySize<number>;
  readonly countAfter: BySize<number>;
  readonly setCount?: BySize<number>;
  readonly form?: 'flat' | 'round';
}

export interface Case {
  readonly id: string;
  readonly source: string;
  readonly form: 'flat' | 'round';
  readonly castOn: BySize<number>;
  readonly sizes?: readonly string[];
  readonly rows: readonly CaseRow[];
  readonly patternText?: string;
}

export interface BookError {
  readonly caseId: string;
  readonly label: string;
  readonly printed: string;
  readonly tripsAt: string;
}

const read = (file: string): unknown =>
  JSON.parse(readFileSync(new URL(`../cases/${file}`, import.meta.url), 'utf8'));

export const CASES = read('public-domain.json') as readonly Case[];
export const BOOK_ERRORS = read('book-errors.json') as readonly BookError[];

export const forSize = <T>(value: BySize<T>, size: number): T =>
  Array.isArray(value) ? (value as readonly T[])[size]! : (value as T);

/** The row as a designer writes it: numbered rows with their label, others without. */
export const writtenRow = ({ label, text }: CaseRow, size: number): string =>
  /^(Row|Rnd)s? \d/.test(label) ? `${label}: ${forSize(text, size)}` : forSize(text, size);

/** The worked examples with their types. See README.md for what the fields mean and where they are from. */
import { readFileSync } from 'node:fs';

export type PerSize<T> = T | readonly T[];

export interface CaseRow {
  readonly label: string;
  readonly text: PerSize<string>;
  readonly countBefore: PerSize<number>;
  readonly countAfter: PerSize<number>;
  readonly form?: 'flat' | 'round';
  readonly setCount?: PerSize<number>;
}

export interface WorkedCase {
  readonly id: string;
  readonly source: string;
  readonly form: 'flat' | 'round';
  readonly castOn: PerSize<number>;
  readonly sizes?: readonly string[];
  readonly multiple?: number;
  readonly plus?: number;
  readonly rows: readonly CaseRow[];
  readonly patternText?: string;
}

export interface BookError {
  readonly caseId: string;
  readonly source: string;
  readonly label: string;
  readonly printed: string;
  readonly problem: string;
  readonly fix: string;
  readonly kind: string;
  readonly confidence: string;
  readonly tripsAt: string;
}

const read = (file: string): unknown =>
  JSON.parse(readFileSync(new URL(file, import.meta.url), 'utf8'));

export const WORKED_CASES = read('public-domain.json') as readonly WorkedCase[];
export const BOOK_ERRORS = read('book-errors.json') as readonly BookError[];

/** One value per size, whether or not they differ. */
export const each = <T>(value: PerSize<T>): readonly T[] => (Array.isArray(value) ? value : [value as T]);

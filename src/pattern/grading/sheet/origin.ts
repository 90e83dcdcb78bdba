/**
 * Which pattern a sheet was made from: told in the hidden first column of every heading, where no
 * spreadsheet program changes it and a sheet saved alone or as plain text keeps it. Gives the mark and
 * reads it back; what it means for a shelf is not known here.
 */
import type { BundleData } from '../../bundle/schema.ts';

export interface SheetOrigin {
  readonly id: string;
  readonly version: string;
}

const MARK = /^pattern\/([^/]{1,120})\/([^/]{1,40})$/;

export const originMark = ({ id, version }: BundleData): string => `pattern/${id}/${version}`;

/** Undefined for the key of a number. */
export function readOrigin(key: string): SheetOrigin | undefined {
  const [, id, version] = MARK.exec(key) ?? [];
  return id === undefined || version === undefined ? undefined : { id, version };
}

/**
 * The checks: what a technical editor would look for, one file each. Reads the bundle, works the
 * pattern in every size, runs every check of the register on what came out, and matches the findings
 * with those the bundle accepts. To add a check: one file, one line in the register below.
 */
import type { Bundle, CheckedPattern } from '../pattern.ts';
import { workPattern } from '../needle/index.ts';
import { readPattern } from '../read.ts';

export function checkPattern(bundle: Bundle): CheckedPattern {
  const { pattern, findings } = readPattern(bundle);
  const worked = workPattern(pattern);
  return { pattern, pieces: worked.pieces, findings: [...findings, ...worked.findings] };
}

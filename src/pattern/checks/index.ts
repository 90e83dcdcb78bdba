/**
 * The checks: what a technical editor would look for, one file each. Reads the bundle, works the
 * pattern in every size, runs every check of the register on what came out, and matches the findings
 * with those the bundle accepts. To add a check: one file, one line in the register below.
 */
import type { Finding } from '../../findings/finding.ts';
import { workPattern } from '../needle/index.ts';
import type { Bundle, CheckedPattern } from '../pattern.ts';
import { readPattern } from '../read.ts';
import { acceptFindings } from './acceptance.ts';
import { checkBody } from './body.ts';
import { checkCharts } from './charts.ts';
import { type CheckContext, contextOf } from './context.ts';
import { checkDerivations } from './derivations.ts';
import { checkEase } from './ease.ts';
import { checkGrade } from './grade.ts';
import { checkGradeRules } from './grade-rules.ts';
import { checkJoins } from './joins.ts';
import { checkLengths } from './lengths.ts';
import { checkLines } from './line-checks.ts';
import { checkMaterials } from './materials.ts';
import { checkMeasurements } from './measurements.ts';
import { checkOutlines } from './outlines.ts';
import { checkReferences } from './references.ts';
import { checkSizeLists } from './size-lists.ts';
import { checkStitchPatterns } from './stitch-patterns.ts';
import { checkSwatches } from './swatches.ts';
import { checkYarn } from './yarn.ts';

export type Check = (context: CheckContext) => readonly Finding[];

/** In the order in which a designer reads them. Rows and counts come before, from the needle. */
export const CHECKS: readonly Check[] = [
  checkReferences,
  checkSizeLists,
  checkMaterials,
  checkCharts,
  checkStitchPatterns,
  checkLines,
  checkLengths,
  checkMeasurements,
  checkDerivations,
  checkOutlines,
  checkSwatches,
  checkYarn,
  checkEase,
  checkBody,
  checkGrade,
  checkGradeRules,
  checkJoins,
];

export function checkPattern(bundle: Bundle): CheckedPattern {
  const { pattern, findings } = readPattern(bundle);
  const worked = workPattern(pattern);
  const context = contextOf(pattern, worked.pieces);
  const checked = CHECKS.flatMap((check) => check(context));
  const all = acceptFindings(bundle.data, [...findings, ...worked.findings, ...checked]);
  return { pattern, pieces: worked.pieces, findings: inOrder(all) };
}

const RANK = { error: 0, warning: 1, note: 2 } as const;

/** Errors first; within them the order in which they were found, which is that of the bundle. */
const inOrder = (findings: readonly Finding[]): readonly Finding[] =>
  [...findings].sort((a, b) => RANK[a.severity] - RANK[b.severity]);

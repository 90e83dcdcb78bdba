/**
 * One number changed, and which check notices. A number of a row is tried by working that row again
 * in the sizes it touches; a number of the rest of the bundle by the checks that read it. Nothing is
 * worked that the change cannot reach.
 */
import { present } from '../../base/assert.ts';
import type { Finding } from '../../findings/finding.ts';
import type { BundleData } from '../bundle/schema.ts';
import { sizesOfLine } from '../needle/env.ts';
import { workPattern } from '../needle/index.ts';
import { type Baseline, baselineOf, rerun, type Rerun } from '../needle/rerun.ts';
import { withValues } from '../needle/vary.ts';
import type { Line } from '../notation/ast.ts';
import type { Pattern, PieceTrace } from '../pattern.ts';
import { readPattern } from '../read.ts';
import { checkBody } from './body.ts';
import { checkCharts } from './charts.ts';
import { type CheckContext, contextOf } from './context.ts';
import { checkDerivations } from './derivations.ts';
import { checkEase } from './ease.ts';
import { checkGrade } from './grade.ts';
import { checkJoins } from './joins.ts';
import { lookAt, REMARK_CODES, remarksOn } from './line-checks.ts';
import { checkMaterials } from './materials.ts';
import { checkMeasurements } from './measurements.ts';
import type { BundleNumber, Variant } from './pin-numbers.ts';
import { ruleWith } from './pin-rules.ts';
import { checkStitchPatterns } from './stitch-patterns.ts';
import { checkSwatches } from './swatches.ts';
import { lengthsIn, unitsDiffer } from './written-lengths.ts';

export interface Trial {
  readonly context: CheckContext;
  readonly baseline: Baseline;
  readonly pieces: readonly PieceTrace[];
  /** Findings of the untouched bundle by code and place: what is there anyway is no notice. */
  readonly known: ReadonlySet<string>;
}

/** The untouched pattern, worked once, that all changes are held against. */
export function trialOf(pattern: Pattern): Trial {
  const baseline = baselineOf(pattern);
  const pieces = baseline.pieces.map(({ trace }) => trace);
  const context = contextOf(pattern, pieces);
  const known = new Set(TRACE_CHECKS.flatMap((check) => check(context)).map(keyOf));
  return { context, baseline, pieces, known };
}

const keyOf = ({ code, where }: Finding): string => `${code} ${where.pointer}`;

/** Checks that look at counts or at sized numbers; the others look at names. */
const TRACE_CHECKS = [
  checkMeasurements,
  checkEase,
  checkBody,
  checkGrade,
  checkJoins,
  checkMaterials,
  checkDerivations,
  checkSwatches,
];

/** The check that notices: the code of its finding; `same` where the change says the same thing. */
export type Notice = string;

const SAME: Notice = 'same';

/** What notices a change first; undefined where nothing does. */
export function noticeOf(trial: Trial, number: BundleNumber, variant: Variant): Notice | undefined {
  const { home } = number;
  if (meansTheSame(trial, number, variant)) return SAME;
  switch (home.kind) {
    case 'line':
      return lineNotice(trial, number, home, variant);
    case 'pattern':
      return patternNotice(trial, home, variant);
    case 'data':
      return dataNotice(trial, number, home, variant);
  }
}

/** "Multiple of 4 + 2" and "multiple of 4 + 6" are the same counts. */
function meansTheSame(
  { context }: Trial,
  { home, value }: BundleNumber,
  variant: Variant,
): boolean {
  if (home.kind !== 'data' || home.steps[0] !== 'stitchPatterns' || home.steps[2] !== 'plus') {
    return false;
  }
  const multiple = context.data.stitchPatterns[Number(home.steps[1])]?.multiple ?? 1;
  return ((variant.list[0] ?? 0) - value) % multiple === 0;
}

// ---------------------------------------------------------------- a number of a row

export type LineHome = Extract<BundleNumber['home'], { kind: 'line' }>;

function lineNotice(
  trial: Trial,
  number: BundleNumber,
  home: LineHome,
  variant: Variant,
): Notice | undefined {
  const { baseline } = trial;
  const line = present(baseline.envs[home.piece]?.lines[home.line]?.line, 'a line that was read');
  const changed = withValues(line, home.number, variant.list);
  const sizes = sizesTouched(trial, line, number, variant);
  if (number.step < 1 && unitsNoticed(trial, changed, sizes)) return 'measure/units-differ';
  const remark = remarksNotice(trial, home, changed);
  if (remark !== undefined) return remark;
  for (const size of sizes) {
    const run = rerun(baseline, home.piece, home.line, changed, size);
    const notice = run.noticed ?? tracesNotice(trial, run, size);
    if (notice !== undefined) return notice;
  }
  return undefined;
}

/** Sizes whose number is another one now. */
export function sizesTouched(
  { context }: Trial,
  line: Line,
  { list }: BundleNumber,
  variant: Variant,
): readonly number[] {
  const only = sizesOfLine(line, context.pattern.sizes);
  const all = only ?? context.sizes;
  if (list.length === 1) return all;
  const short = only !== undefined && list.length === only.length;
  return list.flatMap((value, at) => {
    if (value === variant.list[at]) return [];
    const size = short ? only[at] : at;
    return size === undefined || !all.includes(size) ? [] : [size];
  });
}

function unitsNoticed({ context }: Trial, changed: Line, sizes: readonly number[]): boolean {
  const { pattern } = context;
  return lengthsIn(changed).some(
    (length) => unitsDiffer(pattern, changed, length, sizes).length > 0,
  );
}

/** The checks on the row by itself. */
function remarksNotice(
  { context }: Trial,
  { piece, line: at }: LineHome,
  changed: Line,
): Notice | undefined {
  const look = lookAt(context, changed, (size) => context.outcome(piece, at, size)?.before);
  const [remark] = remarksOn(look);
  return remark && REMARK_CODES[remark.kind];
}

/** The checks on what the changed size came to. */
function tracesNotice(trial: Trial, run: Rerun, size: number): Notice | undefined {
  const { context } = trial;
  const changed: CheckContext = {
    ...context,
    sizes: [size],
    outcome: (piece, line, at) =>
      (at === size ? run.outcome(piece, line) : undefined) ?? context.outcome(piece, line, at),
  };
  return firstNew(trial, [checkMeasurements, checkEase, checkJoins, checkDerivations], changed);
}

const newIn = ({ known }: Trial, findings: readonly Finding[]): Notice | undefined =>
  findings.find((each) => !known.has(keyOf(each)))?.code;

type Check = (context: CheckContext) => readonly Finding[];

/** The first check that finds what the untouched pattern has not. */
function firstNew(
  trial: Trial,
  checks: readonly Check[],
  changed: CheckContext,
): Notice | undefined {
  for (const check of checks) {
    const notice = newIn(trial, check(changed));
    if (notice !== undefined) return notice;
  }
  return undefined;
}

// ---------------------------------------------------------------- a number of a stitch pattern

type PatternHome = Extract<BundleNumber['home'], { kind: 'pattern' }>;

function patternNotice(trial: Trial, home: PatternHome, variant: Variant): Notice | undefined {
  const { pattern } = trial.context;
  const stitchPatterns = (pattern.stitchPatterns ?? []).map((each, at) => {
    if (at !== home.pattern) return each;
    const lines = each.lines.map((written, index) =>
      index === home.line && written.line
        ? { ...written, line: withValues(written.line, home.number, variant.list) }
        : written,
    );
    return { ...each, lines };
  });
  const changed = { ...pattern, stitchPatterns };
  const context = contextOf(changed, trial.pieces);
  return newIn(trial, checkStitchPatterns(context)) ?? workPattern(changed).findings[0]?.code;
}

// ---------------------------------------------------------------- a number of the rest

type DataHome = Extract<BundleNumber['home'], { kind: 'data' }>;

function dataNotice(
  trial: Trial,
  number: BundleNumber,
  { steps, inText }: DataHome,
  variant: Variant,
): Notice | undefined {
  const { context, pieces } = trial;
  const { list } = number;
  const plain = list.length === 1 ? (variant.list[0] ?? null) : variant.list;
  const data = withData(context.data, steps, inText ? ruleWith(inText, variant.list) : plain);
  const bundle = { ...context.pattern.bundle, data };
  const changed: CheckContext = {
    ...contextOf({ ...context.pattern, bundle }, pieces),
    sizes: context.sizes.filter((size) => list.length === 1 || list[size] !== variant.list[size]),
  };
  const notice = firstNew(trial, TRACE_CHECKS, changed);
  if (notice !== undefined) return notice;
  const [room, , part] = steps;
  if (part === 'swatch') return undefined;
  if (typeof room === 'string' && FAR_REACHING.has(room)) return wholeNotices(trial, bundle, room);
  return undefined;
}

/** Parts of the bundle whose numbers the needle goes by. */
const FAR_REACHING = new Set([
  'charts',
  'stitches',
  'stitchPatterns',
  'pieces',
  'gauges',
  'numbers',
]);

/** Numbers that many rows go by: the pattern is worked afresh, and read where its charts change. */
function wholeNotices(trial: Trial, bundle: Pattern['bundle'], room: string): Notice | undefined {
  const isRead = room === 'gauges' || room === 'pieces';
  const { pattern, findings } = isRead
    ? { pattern: { ...trial.context.pattern, bundle }, findings: [] }
    : readPattern(bundle);
  if (findings[0]) return findings[0].code;
  const worked = workPattern(pattern);
  const context = contextOf(pattern, worked.pieces);
  const checks = [checkCharts, checkStitchPatterns, ...TRACE_CHECKS];
  return newIn(trial, worked.findings) ?? firstNew(trial, checks, context);
}

/** The data with one value changed; everything else is shared. */
export function withData(
  data: BundleData,
  steps: readonly (string | number)[],
  value: number | string | null | readonly (number | null)[],
): BundleData {
  return changeAt(data, steps, 0, value) as BundleData;
}

function changeAt(
  here: unknown,
  steps: readonly (string | number)[],
  depth: number,
  value: unknown,
): unknown {
  const step = steps[depth];
  if (step === undefined) return value;
  if (Array.isArray(here)) {
    return here.map((inner: unknown, at) =>
      at === Number(step) ? changeAt(inner, steps, depth + 1, value) : inner,
    );
  }
  const record = here as Readonly<Record<string, unknown>>;
  return { ...record, [step]: changeAt(record[String(step)], steps, depth + 1, value) };
}

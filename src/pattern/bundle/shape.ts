/**
 * Turns what the schema complains of into findings that name the place, what stands there, what is
 * needed, and the nearest known word. Takes the schema's issues and the value they are about.
 */
import type { z } from 'zod';
import { nearestWords } from '../../base/nearest.ts';
import { followPointer, pointerTo } from '../../base/span.ts';
import type { Finding, Place } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { knownAt, nameOfType } from './json-schema.ts';

type Issue = z.core.$ZodIssue;

interface Subject {
  readonly file: string;
  readonly value: unknown;
}

export function shapeFindings(subject: Subject, issues: readonly Issue[]): readonly Finding[] {
  return issues.flatMap((issue) => findingsOf(subject, issue, []));
}

function findingsOf(
  subject: Subject,
  issue: Issue,
  base: readonly PropertyKey[],
): readonly Finding[] {
  const path = [...base, ...issue.path];
  const where = placeOf(subject, path);
  const found = followPointer(subject.value, where.pointer);
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownKey(subject, path, key));
    case 'invalid_type':
    case 'invalid_value':
      return found === undefined
        ? [missingKey(subject, path)]
        : [wrongValue(where, found, issue, path)];
    case 'invalid_union':
      return unionFindings(subject, issue, path, where, found);
    case 'invalid_key':
      return [
        shape(where, `the key “${String(path.at(-1))}” is not allowed here: ${reasons(issue)}`),
      ];
    case 'too_big':
    case 'too_small':
      return [shape(where, sizeProblem(issue, found))];
    default:
      return [shape(where, formatProblem(issue, found, path))];
  }
}

const shape = (where: Place, problem: string): Finding =>
  finding('bundle/shape', where, { problem });

function placeOf(subject: Subject, path: readonly PropertyKey[]): Place {
  const pointer = pointerTo(
    '',
    ...path.map((step) => (typeof step === 'number' ? step : String(step))),
  );
  return { file: subject.file, pointer };
}

function unknownKey(subject: Subject, path: readonly PropertyKey[], key: string): Finding {
  const known = knownAt(path).keys;
  return finding('bundle/unknown-key', placeOf(subject, [...path, key]), {
    key,
    nearest: nearestWords(key, known),
    known,
  });
}

function missingKey(subject: Subject, path: readonly PropertyKey[]): Finding {
  const { expected, description } = knownAt(path);
  return finding('bundle/missing-key', placeOf(subject, path.slice(0, -1)), {
    key: String(path.at(-1)),
    expected: description === undefined ? expected : `${expected} (${description})`,
  });
}

function wrongValue(
  where: Place,
  found: unknown,
  issue: Extract<Issue, { code: 'invalid_type' | 'invalid_value' }>,
  path: readonly PropertyKey[],
): Finding {
  if (issue.code === 'invalid_value' && typeof found === 'string') {
    const allowed = issue.values.map(String);
    const nearest = nearestWords(found, allowed);
    return finding('bundle/wrong-value', where, { found: describe(found), allowed, nearest });
  }
  const expected =
    issue.code === 'invalid_type' ? nameOfType(issue.expected) : knownAt(path).expected;
  return finding('bundle/wrong-type', where, { expected, found: describe(found) });
}

/** Of the alternatives, the one whose kind fits what stands there speaks for all. */
function unionFindings(
  subject: Subject,
  issue: Extract<Issue, { code: 'invalid_union' }>,
  path: readonly PropertyKey[],
  where: Place,
  found: unknown,
): readonly Finding[] {
  if (found === undefined) return [missingKey(subject, path)];
  const wrongKind = (branch: readonly Issue[]) =>
    branch.some((each) => each.code === 'invalid_type' && each.path.length === 0);
  const [best] = issue.errors
    .filter((branch) => branch.length > 0 && !wrongKind(branch))
    .sort((a, b) => a.length - b.length);
  if (best !== undefined) return best.flatMap((each) => findingsOf(subject, each, path));
  const { expected } = knownAt(path);
  return [finding('bundle/wrong-type', where, { expected, found: describe(found) })];
}

function sizeProblem(
  issue: Extract<Issue, { code: 'too_big' | 'too_small' }>,
  found: unknown,
): string {
  const bound =
    issue.code === 'too_big'
      ? `${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}`
      : `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}`;
  switch (issue.origin) {
    case 'string':
      return `the text has ${String(found).length} characters; it needs ${bound}`;
    case 'array':
      return `the list has ${Array.isArray(found) ? found.length : 0} entries; it needs ${bound}`;
    default:
      return `${describe(found)} is out of range; it must be ${bound}`;
  }
}

function formatProblem(issue: Issue, found: unknown, path: readonly PropertyKey[]): string {
  if (issue.code === 'custom') return issue.message;
  if (issue.code === 'invalid_format' && issue.format === 'date') {
    return `${describe(found)} is not a day of the calendar, written like 2026-03-14`;
  }
  const own = issue.message.startsWith('Invalid') ? knownAt(path).description : issue.message;
  const pattern = issue.code === 'invalid_format' ? issue.pattern : undefined;
  return `${describe(found)} does not fit: ${own ?? `it must match ${pattern ?? 'the format'}`}`;
}

const reasons = (issue: Extract<Issue, { code: 'invalid_key' }>): string =>
  issue.issues
    .map((each) => (each.code === 'too_big' ? `at most ${each.maximum} characters` : each.message))
    .join('; ');

function describe(value: unknown): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object') return 'a record';
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}…"` : text;
}

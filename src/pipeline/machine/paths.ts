/**
 * Reference paths of the states language: `$.a.b` reads the state's input, `$$.a.b` the context of the
 * run. Takes and gives plain JSON values; a path that leads nowhere is an error, as it is in the cloud.
 */

/** Thrown with the name the states language gives it. */
class PathError extends Error {
  override name = 'States.ParameterPathFailure';
}

export function readPath(path: string, input: unknown, context: unknown): unknown {
  const fromContext = path.startsWith('$$');
  let here = fromContext ? context : input;
  for (const step of path.split('.').slice(1)) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, step)) {
      throw new PathError(`${path} leads nowhere`);
    }
    here = (here as Record<string, unknown>)[step];
  }
  return here;
}

/** Fills `{"name.$": "$.path", "other": "as it is"}`. */
export function fillTemplate(
  template: Readonly<Record<string, string>>,
  input: unknown,
  context: unknown,
): Readonly<Record<string, unknown>> {
  return Object.fromEntries(
    Object.entries(template).map(([field, value]) =>
      field.endsWith('.$')
        ? [field.slice(0, -'.$'.length), readPath(value, input, context)]
        : [field, value],
    ),
  );
}

/** The input with a result put where `path` says; `$` replaces it whole. Nothing is changed in place. */
export function writePath(path: string, input: unknown, result: unknown): unknown {
  const [step, ...rest] = path.split('.').slice(1);
  if (step === undefined) return result;
  const record = typeof input === 'object' && input !== null ? input : {};
  const inner = Object.hasOwn(record, step) ? (record as Record<string, unknown>)[step] : {};
  return { ...record, [step]: writePath(['$', ...rest].join('.'), inner, result) };
}

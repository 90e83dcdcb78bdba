/**
 * The part of the Amazon States Language that the pipeline uses, as a schema. A definition outside this
 * part is refused, so that what runs on a laptop and what runs in the cloud cannot drift apart in
 * silence. JSONPath form; names and meaning as states-language.net specifies.
 */
import { z } from 'zod';
import { Fault } from '../../base/fault.ts';

/** `$`, `$.a.b`, or the context: `$$.Execution.Name`, `$$.Map.Item.Value`. */
const path = z.string().regex(/^\${1,2}(\.[A-Za-z_]\w*)*$/);
/** `{"run.$": "$.run", "outcome": "released"}`: a field that reads a path, or a plain text. */
const template = z
  .record(z.string(), z.string())
  .refine(
    (fields) =>
      Object.entries(fields).every(([field, value]) =>
        field.endsWith('.$') ? path.safeParse(value).success : /^\w+$/.test(field),
      ),
    'fields are plain texts, or end in .$ and read a path',
  );
const seconds = z
  .number()
  .int()
  .min(1)
  .max(3600 * 24);
const comment = z.string().optional();
const errorNames = z.array(z.string()).min(1);

const retrier = z.strictObject({
  ErrorEquals: errorNames,
  IntervalSeconds: seconds.default(1),
  MaxAttempts: z.number().int().min(0).max(100).default(3),
  BackoffRate: z.number().min(1).default(2),
  MaxDelaySeconds: seconds.optional(),
  JitterStrategy: z.enum(['FULL', 'NONE']).default('NONE'),
});
const catcher = z.strictObject({
  ErrorEquals: errorNames,
  ResultPath: path.optional(),
  Next: z.string(),
});

/** Another state machine's run, waited for; its output comes back as JSON. */
const RUN_AND_WAIT = 'arn:aws:states:::states:startExecution.sync:2';

const taskState = z.strictObject({
  Type: z.literal('Task'),
  Comment: comment,
  Resource: z.union([
    z.string().regex(/^\$\{[a-z]+\}$/, 'the name of a step: ${intake}'),
    z.literal(RUN_AND_WAIT),
  ]),
  Parameters: template,
  ResultPath: path.optional(),
  TimeoutSeconds: seconds,
  Retry: z.array(retrier).default([]),
  Catch: z.array(catcher).default([]),
  Next: z.string().optional(),
  End: z.literal(true).optional(),
});
const choiceState = z.strictObject({
  Type: z.literal('Choice'),
  Comment: comment,
  Choices: z
    .array(z.strictObject({ Variable: path, StringEquals: z.string(), Next: z.string() }))
    .min(1),
  Default: z.string(),
});
const succeedState = z.strictObject({ Type: z.literal('Succeed'), Comment: comment });
const failState = z.strictObject({
  Type: z.literal('Fail'),
  Comment: comment,
  ErrorPath: path,
  CausePath: path,
});
/** Many runs of their own instead of a loop in one: the items are read from a bucket. */
const distributed = {
  ItemReader: z.strictObject({
    Resource: z.literal('arn:aws:states:::s3:listObjectsV2'),
    Parameters: template,
  }),
  ResultWriter: z.strictObject({
    Resource: z.literal('arn:aws:states:::s3:putObject'),
    Parameters: template,
  }),
  ToleratedFailurePercentage: z.number().min(0).max(100),
};
const mapState = z
  .strictObject({
    Type: z.literal('Map'),
    Comment: comment,
    ItemsPath: path.optional(),
    ItemReader: distributed.ItemReader.optional(),
    ItemSelector: template,
    MaxConcurrency: z.number().int().min(1).max(40),
    ToleratedFailurePercentage: distributed.ToleratedFailurePercentage.optional(),
    ItemProcessor: z.strictObject({
      ProcessorConfig: z.union([
        z.strictObject({ Mode: z.literal('INLINE') }),
        z.strictObject({ Mode: z.literal('DISTRIBUTED'), ExecutionType: z.literal('STANDARD') }),
      ]),
      StartAt: z.string(),
      States: z.record(
        z.string(),
        z.discriminatedUnion('Type', [taskState, choiceState, succeedState]),
      ),
    }),
    ResultWriter: distributed.ResultWriter.optional(),
    ResultPath: path.optional(),
    Retry: z.array(retrier).default([]),
    Catch: z.array(catcher).default([]),
    Next: z.string().optional(),
    End: z.literal(true).optional(),
  })
  .refine(({ ItemProcessor, ItemsPath, ItemReader, ResultWriter, ToleratedFailurePercentage }) => {
    const read = [ItemReader, ResultWriter, ToleratedFailurePercentage];
    return ItemProcessor.ProcessorConfig.Mode === 'INLINE'
      ? ItemsPath !== undefined && read.every((each) => each === undefined)
      : ItemsPath === undefined && read.every((each) => each !== undefined);
  }, 'an inline map has ItemsPath; a distributed one a reader, a writer and a tolerance');

const state = z.discriminatedUnion('Type', [
  taskState,
  choiceState,
  succeedState,
  failState,
  mapState,
]);
const definition = z.strictObject({
  Comment: comment,
  StartAt: z.string(),
  TimeoutSeconds: seconds,
  States: z.record(z.string(), state),
});

export type Definition = z.output<typeof definition>;
export type State = z.output<typeof state>;
export type TaskState = z.output<typeof taskState>;
export type MapState = z.output<typeof mapState>;
export type ChoiceState = z.output<typeof choiceState>;
export type Retrier = z.output<typeof retrier>;
export type Flow = { readonly StartAt: string; readonly States: Readonly<Record<string, State>> };

/** Reads a definition; throws where it leaves the subset or names a state that is not there. */
export function readDefinition(value: unknown): Definition {
  const parsed = definition.safeParse(value);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    throw wrong(`${issue?.path.join('.') ?? ''}: ${issue?.message ?? 'not readable'}`);
  }
  requireWhole(parsed.data);
  return parsed.data;
}

/** Every name leads to a state, every state is reached, and every way ends. */
function requireWhole(flow: Flow): void {
  const reached = new Set<string>();
  const visit = (name: string, from: string): void => {
    const here = Object.hasOwn(flow.States, name) ? flow.States[name] : undefined;
    if (here === undefined) throw wrong(`${from} leads to ${name}, which is not there`);
    if (reached.has(name)) return;
    reached.add(name);
    if (here.Type === 'Map') requireWhole(here.ItemProcessor);
    for (const next of waysOut(here, name)) visit(next, name);
  };
  visit(flow.StartAt, 'StartAt');
  const lost = Object.keys(flow.States).filter((name) => !reached.has(name));
  if (lost.length > 0) throw wrong(`nothing leads to ${lost.join(', ')}`);
}

function waysOut(here: State, name: string): readonly string[] {
  switch (here.Type) {
    case 'Succeed':
    case 'Fail':
      return [];
    case 'Choice':
      return [...here.Choices.map(({ Next }) => Next), here.Default];
    case 'Task':
    case 'Map': {
      if ((here.Next === undefined) === (here.End === undefined)) {
        throw wrong(`${name} needs either Next or End`);
      }
      const next = here.Next === undefined ? [] : [here.Next];
      return [...next, ...here.Catch.map(({ Next }) => Next)];
    }
  }
}

const wrong = (problem: string): Fault =>
  new Fault('input', `the state machine is not one this program runs: ${problem}`, {
    remedy: 'keep to the states and fields of src/pipeline/machine/definition.ts',
  });

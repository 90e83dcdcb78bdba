/**
 * Runs a state machine definition in this process: the very file that is deployed to the cloud. Takes
 * the definition, an input and a host that works tasks, waits and draws random numbers; gives how it
 * ended. Knows no step by name.
 */
import { assertNever, present } from '../../base/assert.ts';
import { Fault } from '../../base/fault.ts';
import { RUN_LIMITS } from '../../base/limits.ts';
import type { ChoiceState, Definition, Flow, MapState, Retrier, TaskState } from './definition.ts';
import { fillTemplate, readPath, writePath } from './paths.ts';

export interface MachineHost {
  readonly executionName: string;
  /** Items of a Map worked at once, at most; the definition's own bound holds as well. */
  readonly concurrency: number;
  readonly signal?: AbortSignal | undefined;
  /** Works the task of that name; the error's `name` and `message` are what Retry and Catch see. */
  task(name: string, input: unknown): Promise<unknown>;
  sleep(seconds: number): Promise<void>;
  /** From 0 up to 1. */
  random(): number;
}

export type MachineEnd =
  | {
      readonly status: 'succeeded';
      readonly state: string;
      readonly output: unknown;
      /** States entered and retries, as the cloud counts and charges them. */
      readonly transitions: number;
    }
  | {
      readonly status: 'failed';
      readonly error: string;
      readonly cause: string;
      /** What was thrown last, for callers in the same process. */
      readonly thrown: unknown;
    };

interface Run {
  readonly host: MachineHost;
  transitions: number;
  thrown: unknown;
}

/** What a state that ends or fails leaves behind. */
class Failure extends Error {
  override name = 'Failure';
  readonly error: string;
  readonly causeText: string;
  constructor(error: string, causeText: string) {
    super(`${error}: ${causeText}`);
    this.error = error;
    this.causeText = causeText;
  }
}

export async function runMachine(
  definition: Definition,
  input: unknown,
  host: MachineHost,
): Promise<MachineEnd> {
  const run: Run = { host, transitions: 0, thrown: undefined };
  try {
    const end = await runFlow(definition, input, { Execution: { Name: host.executionName } }, run);
    return { status: 'succeeded', ...end, transitions: run.transitions };
  } catch (error) {
    if (!(error instanceof Failure)) throw error;
    return { status: 'failed', error: error.error, cause: error.causeText, thrown: run.thrown };
  }
}

type Context = Readonly<Record<string, unknown>>;

async function runFlow(
  flow: Flow,
  input: unknown,
  context: Context,
  run: Run,
): Promise<{ readonly state: string; readonly output: unknown }> {
  let name = flow.StartAt;
  let value = input;
  for (;;) {
    countTransition(run);
    const state = present(flow.States[name], `state ${name}`);
    switch (state.Type) {
      case 'Succeed':
        return { state: name, output: value };
      case 'Fail':
        throw new Failure(
          String(readPath(state.ErrorPath, value, context)),
          String(readPath(state.CausePath, value, context)),
        );
      case 'Choice':
        name = choose(state, value, context);
        break;
      case 'Task':
      case 'Map': {
        const work = () =>
          state.Type === 'Task'
            ? runTask(state, value, context, run)
            : runMap(state, value, context, run);
        const { next, output } = await withRetry(state, value, work, run);
        if (next === undefined) return { state: name, output };
        name = next;
        value = output;
        break;
      }
      default:
        return assertNever(state);
    }
  }
}

function choose(state: ChoiceState, value: unknown, context: Context): string {
  const found = state.Choices.find(
    ({ Variable, StringEquals }) => readPath(Variable, value, context) === StringEquals,
  );
  return found?.Next ?? state.Default;
}

async function runTask(
  state: TaskState,
  value: unknown,
  context: Context,
  run: Run,
): Promise<unknown> {
  const step = stepOf(state.Resource);
  const result = await run.host.task(step, fillTemplate(state.Parameters, value, context));
  // A task of the cloud hands over text; what does not survive that must not work here either.
  return JSON.parse(JSON.stringify(result)) as unknown;
}

/** `${intake}` is intake; a service of AWS is the name of its action: startExecution. */
const stepOf = (resource: string): string =>
  /^\$\{(\w+)\}$/.exec(resource)?.[1] ?? /([a-zA-Z0-9]+)(\.sync:2)?$/.exec(resource)?.[1] ?? '';

async function itemsOf(
  { ItemsPath, ItemReader }: MapState,
  value: unknown,
  context: Context,
  run: Run,
): Promise<readonly unknown[]> {
  const items =
    ItemReader === undefined
      ? readPath(ItemsPath ?? '$', value, context)
      : await run.host.task(
          stepOf(ItemReader.Resource),
          fillTemplate(ItemReader.Parameters, value, context),
        );
  if (Array.isArray(items)) return items;
  throw new Failure('States.Runtime', `${ItemsPath ?? 'what was read'} is no list`);
}

async function runMap(
  state: MapState,
  value: unknown,
  context: Context,
  run: Run,
): Promise<unknown> {
  const items = await itemsOf(state, value, context, run);
  const isTolerant = state.ToleratedFailurePercentage === 100;
  const results: unknown[] = [];
  const waiting = items.entries();
  let stopped = false;
  const worker = async (): Promise<void> => {
    for (const [index, item] of waiting) {
      if (stopped) return;
      const inside = { ...context, Map: { Item: { Index: index, Value: item } } };
      try {
        const input = fillTemplate(state.ItemSelector, value, inside);
        results[index] = (await runFlow(state.ItemProcessor, input, inside, run)).output;
      } catch (error) {
        if (isTolerant && error instanceof Failure) continue;
        stopped = true;
        throw error;
      }
    }
  };
  const workers = Math.min(state.MaxConcurrency, run.host.concurrency, items.length);
  const ends = await Promise.allSettled(Array.from({ length: workers }, worker));
  for (const end of ends) if (end.status === 'rejected') throw end.reason;
  // What many runs give is written to a bucket; the state keeps none of it.
  return state.ResultWriter === undefined ? results : {};
}

/** Tries the work as often as the first fitting retrier allows, then looks for a catcher. */
async function withRetry(
  state: TaskState | MapState,
  value: unknown,
  work: () => Promise<unknown>,
  run: Run,
): Promise<{ readonly next: string | undefined; readonly output: unknown }> {
  const tries = new Map<Retrier, number>();
  for (;;) {
    try {
      const result = await work();
      return { next: state.Next, output: writePath(state.ResultPath ?? '$', value, result) };
    } catch (thrown) {
      const failure = toFailure(thrown, run);
      const retrier = state.Retry.find(({ ErrorEquals }) => fits(ErrorEquals, failure.error));
      const tried = retrier === undefined ? 0 : (tries.get(retrier) ?? 0);
      if (retrier !== undefined && tried < retrier.MaxAttempts) {
        tries.set(retrier, tried + 1);
        await run.host.sleep(delayOf(retrier, tried, run.host.random()));
        countTransition(run);
        continue;
      }
      const catcher = state.Catch.find(({ ErrorEquals }) => fits(ErrorEquals, failure.error));
      if (catcher === undefined) throw failure;
      const caught = { Error: failure.error, Cause: failure.causeText };
      return { next: catcher.Next, output: writePath(catcher.ResultPath ?? '$', value, caught) };
    }
  }
}

/** A run that was cancelled or runs in a circle is not the machine's to catch. */
function toFailure(thrown: unknown, run: Run): Failure {
  if (thrown instanceof Failure) return thrown;
  if (thrown instanceof Fault) throw thrown;
  run.thrown = thrown;
  return thrown instanceof Error
    ? new Failure(thrown.name, thrown.message)
    : new Failure('Error', String(thrown));
}

const fits = (names: readonly string[], error: string): boolean =>
  names.includes(error) || names.includes('States.ALL');

/** Seconds before the next try: exponential, bounded, and spread over the whole span under FULL jitter. */
export function delayOf(retrier: Retrier, tried: number, random: number): number {
  const grown = retrier.IntervalSeconds * retrier.BackoffRate ** tried;
  const bounded = Math.min(grown, retrier.MaxDelaySeconds ?? Infinity);
  return retrier.JitterStrategy === 'FULL' ? bounded * random : bounded;
}

function countTransition(run: Run): void {
  if (run.host.signal?.aborted === true) {
    throw new Fault('cancelled', 'the run was cancelled', {
      remedy: 'run it again; what is finished is not done twice',
    });
  }
  run.transitions += 1;
  if (run.transitions > RUN_LIMITS.transitions) {
    throw new Fault('usage', `the run took more than ${RUN_LIMITS.transitions} steps`);
  }
}

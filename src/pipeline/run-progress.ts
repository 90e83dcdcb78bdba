/**
 * How far a run has come, told by what its steps leave behind for each other. Nothing is written for the
 * sake of telling but the plan, one small record that the check leaves; one list and that record answer
 * whoever asks, however many documents there are.
 */
import { z } from 'zod';
import { parseJson } from '../release/manifest.ts';
import type { Store } from '../store/store.ts';
import { findingsKey, picturesKey, releasedKey, writeJson } from './claims.ts';
import { followsKey } from './follows.ts';
import { order } from './payloads.ts';
import type { DocumentOrder, StepName } from './ports.ts';
import { editionName } from './steps/compose.ts';

/** What a run is about, as soon as its bundle could be read. */
const plan = z.strictObject({ pattern: z.string(), version: z.string(), orders: z.array(order) });
export type Plan = z.output<typeof plan>;

const planKey = (run: string): string => `runs/${run}/plan.json`;

export async function keepPlan(work: Store, run: string, value: Plan): Promise<void> {
  await writeJson(work, planKey(run), value);
}

export async function recallPlan(work: Store, run: string): Promise<Plan | undefined> {
  const stored = await work.get(planKey(run));
  return stored && plan.parse(parseJson(stored.bytes));
}

/** Where the findings of one document are kept: beside the run, by language and edition. */
export const proofRun = (run: string, { language, edition }: DocumentOrder): string =>
  `${run}/proof/${language}/${editionName(edition)}`;

export interface RunProgress {
  /** Steps that are behind the run. */
  readonly done: readonly StepName[];
  /** `done`: it was made and read again. */
  readonly documents: readonly (DocumentOrder & { readonly done: boolean })[];
}

export async function recallProgress(
  work: Store,
  run: string,
  { orders }: Pick<Plan, 'orders'>,
): Promise<RunProgress> {
  const left = new Set<string>();
  for await (const { key } of work.list(`runs/${run}/`)) left.add(key);
  const steps = [
    ['intake', findingsKey(run)],
    // Kept by a check that let the pattern pass.
    ['check', followsKey(run)],
    ['pictures', picturesKey(run)],
    ['stage', releasedKey(run)],
  ] as const;
  return {
    done: steps.flatMap(([step, key]) => (left.has(key) ? [step] : [])),
    documents: orders.map((each) => ({
      ...each,
      done: left.has(findingsKey(proofRun(run, each))),
    })),
  };
}

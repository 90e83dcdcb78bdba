/** Test knitters for tests: the sheet of a starter in a size, filled in and read back. */
import {
  type Answer,
  readReturn,
  type ReturnedSheet,
} from '../../src/packet/testing/read-return.ts';
import { planReturn, type ReturnPlan } from '../../src/packet/testing/plan.ts';
import { returnJson } from '../../src/packet/testing/return-sheet.ts';
import type { CheckedPattern } from '../../src/pattern/pattern.ts';
import { equipment, starter } from '../shop/starters.ts';

export async function planOf(name: string, size: number, tag = 'en-US'): Promise<ReturnPlan> {
  return planFor(await starter(name), size, tag);
}

export async function planFor(
  checked: CheckedPattern,
  size: number,
  tag = 'en-US',
): Promise<ReturnPlan> {
  const language = (await equipment()).languages.get(tag)!;
  return planReturn({ checked, language, kind: 'one-size', size, pictures: new Map() });
}

export type Answers = Readonly<Record<string, Answer['value'] | null>>;

/** Every number as the pattern states it. */
export const asStated = (plan: ReturnPlan, knitter: string): Answers => ({
  ...Object.fromEntries(plan.rows.map(({ key, stated }) => [key, stated])),
  knitter,
});

/** The JSON sheet with these answers, as bytes. */
export function filledJson(plan: ReturnPlan, answers: Answers): Uint8Array {
  const json = JSON.parse(new TextDecoder().decode(returnJson(plan))) as {
    rows: { key: string; answer: unknown }[];
  };
  for (const row of json.rows) row.answer = answers[row.key] ?? null;
  return new TextEncoder().encode(JSON.stringify(json));
}

/** Filled in and read back; fails where the sheet is refused. */
export async function returned(plan: ReturnPlan, answers: Answers): Promise<ReturnedSheet> {
  const read = await readReturn(`${answers['knitter']}.json`, filledJson(plan, answers));
  if ('refused' in read) throw new Error(JSON.stringify(read.refused));
  return read.sheet;
}

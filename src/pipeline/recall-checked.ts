/**
 * The checked pattern for any step. A checked pattern is not handed on: it is worked again from the
 * kept bundle, which takes milliseconds and cannot go stale, and is remembered within one process.
 */
import type { CheckedPattern } from '../pattern/pattern.ts';
import { recallBundle } from './claims.ts';
import type { Ports } from './ports.ts';

/** Bundles with their photographs are large; a warm function keeps the last two. */
const REMEMBERED = 2;
const memory = new WeakMap<Ports, Map<string, Promise<CheckedPattern>>>();

export function recallChecked(ports: Ports, bundleHash: string): Promise<CheckedPattern> {
  const known = memory.get(ports) ?? new Map<string, Promise<CheckedPattern>>();
  memory.set(ports, known);
  const found = known.get(bundleHash);
  if (found) return found;
  const checking = recallBundle(ports.work, bundleHash).then((bundle) => ports.rooms.check(bundle));
  known.set(bundleHash, checking);
  checking.catch(() => known.delete(bundleHash));
  for (const hash of [...known.keys()].slice(0, -REMEMBERED)) known.delete(hash);
  return checking;
}

/** Slips of the pen: a bundle with one number of its rows changed in the text. */
import type { BundleNumber, Variant } from '../../src/pattern/checks/pin-numbers.ts';
import type { Bundle } from '../../src/pattern/pattern.ts';

/** The bundle with a number of a row changed in its text, as a slip of the pen would. */
export function mistyped(
  bundle: Bundle,
  number: BundleNumber,
  variant: Variant,
): Bundle | undefined {
  const { span, text = '', pointer } = number.where;
  if (!span || number.home.kind !== 'line') return undefined;
  const spans = number.home.number.sized.spans;
  let changed = text;
  for (let at = spans.length - 1; at >= 0; at -= 1) {
    const here = spans[at];
    const to = variant.list[at];
    if (!here || to === number.list[at] || typeof to !== 'number') continue;
    changed = changed.slice(0, here.start) + String(to) + changed.slice(here.end);
  }
  const data = structuredClone(bundle.data);
  const steps = pointer.split('/').slice(1);
  const last = steps.pop() ?? '';
  const owner = steps.reduce<unknown>(
    (here, step) => (here as Record<string, unknown>)[step],
    data,
  );
  (owner as Record<string, unknown>)[last] = changed;
  return { ...bundle, data };
}

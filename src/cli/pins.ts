/**
 * The report of pinned numbers as text: the share first, then each number that no check holds, with
 * its place, for a human eye; last the numbers that are free by nature, with the reason.
 */
import type { PinsReport, UnpinnedNumber } from '../pattern/checks/pins.ts';

export function printPins({ total, pinned, share, unpinned, free }: PinsReport): string {
  const percent = (Math.floor(share * 1000) / 10).toFixed(1);
  return [
    `${pinned} of ${total} numbers are pinned by a check; ${free.length} are free by nature: ${percent} % of the others hold.`,
    ...(unpinned.length > 0 ? ['', 'Look at these yourself:'] : []),
    ...unpinned.map((each) => `  ${describe(each)}: unnoticed ${each.missed.join(', ')}`),
    ...(free.length > 0 ? ['', 'Free by nature:'] : []),
    ...free.map((each) => `  ${describe(each)}: ${each.reason}`),
  ].join('\n');
}

function describe({ where, value, size }: UnpinnedNumber): string {
  const place = where.label === undefined ? where.pointer : `${where.label} (${where.pointer})`;
  return `${value}${size === undefined ? '' : ` for size ${size}`} at ${place}`;
}

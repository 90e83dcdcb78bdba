/**
 * The one door to the image library. It is loaded when the first picture comes, works with one thread
 * a picture and two pictures at a time (measured as quickest on two cores and bounded in memory), and
 * keeps no cache between pictures.
 */
import type sharpModule from 'sharp';

type Sharp = typeof sharpModule;

const AT_ONCE = 2;

let loading: Promise<Sharp> | undefined;

export function loadEngine(): Promise<Sharp> {
  loading ??= import('sharp').then(({ default: sharp }) => {
    sharp.concurrency(1);
    sharp.cache(false);
    return sharp;
  });
  return loading;
}

const waiting: (() => void)[] = [];
let running = 0;

/** Runs the work as soon as fewer than two others run. */
export async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  if (running >= AT_ONCE) await new Promise<void>((resolve) => waiting.push(resolve));
  running += 1;
  try {
    return await work();
  } finally {
    running -= 1;
    waiting.shift()?.();
  }
}

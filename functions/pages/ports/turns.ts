/**
 * Turns: of all that wants to be done, so much at once and the rest after it. The API has bounds, which one
 * page of a release in twenty languages would else use up alone.
 */
export type Turns = <T>(work: () => Promise<T>) => Promise<T>;

export function openTurns(most: number): Turns {
  const waiting: (() => void)[] = [];
  let left = most;
  const begin = async (): Promise<void> => {
    if (left > 0) left -= 1;
    else await new Promise<void>((resolve) => waiting.push(resolve));
  };
  const end = (): void => {
    const next = waiting.shift();
    if (next) next();
    else left += 1;
  };
  return async (work) => {
    await begin();
    try {
      return await work();
    } finally {
      end();
    }
  };
}

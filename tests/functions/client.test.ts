/** What the pages ask the API for, where one answer is not all there is. */
import { describe, expect, it } from 'vitest';
import { openApi } from '../../functions/pages/client.ts';
import { openTurns } from '../../functions/pages/ports/turns.ts';

describe('patterns that were released', () => {
  it('are told once each, without asking for every version of them', async () => {
    const pages: Readonly<Record<string, object>> = {
      '/releases': {
        releases: [
          { pattern: 'fulmar-hat', version: '1.0.0' },
          { pattern: 'skerry-hat', version: '1.0.0' },
          { pattern: 'skerry-hat', version: '1.0.1' },
        ],
        next: 'skerry-hat/1.0.1',
      },
      '/releases?after=skerry-hat/9999.9999.9999': {
        releases: [{ pattern: 'tern-hat', version: '2.0.0' }],
      },
    };
    const asked: string[] = [];
    const fetch = async (address: string) => {
      asked.push(address);
      return Response.json(pages[address]);
    };
    const api = openApi({ address: '', fetch }, 'token');
    expect(await api.patterns()).toEqual(['fulmar-hat', 'skerry-hat', 'tern-hat']);
    expect(asked).toEqual(Object.keys(pages));
  });
});

describe('an API that is asked too fast', () => {
  const openSlow = (answers: readonly number[]) => {
    const methods: string[] = [];
    const fetch = async (_address: string, { method = '' }: RequestInit) => {
      const status = answers[methods.length] ?? 200;
      methods.push(method);
      return Response.json({ bundles: ['hat'], bundle: 'hat', title: 'no' }, { status });
    };
    return { api: openApi({ address: '', fetch }, 'token'), methods };
  };

  it('is asked again after a while', async () => {
    const { api, methods } = openSlow([429, 503]);
    expect(await api.bundles()).toEqual(['hat']);
    expect(methods).toEqual(['GET', 'GET', 'GET']);
  });

  it('is told once what is to be changed, and a person may say it again', async () => {
    const { api, methods } = openSlow([429]);
    await expect(api.begin('hat')).rejects.toThrow('do not answer just now');
    expect(methods).toEqual(['POST']);
  });
});

describe('turns', () => {
  it('let so many work at once, in order, and go on after one that failed', async () => {
    const inTurn = openTurns(2);
    let [now, most] = [0, 0];
    const done: number[] = [];
    const work = (each: number) => async () => {
      now += 1;
      most = Math.max(most, now);
      await new Promise((resolve) => setTimeout(resolve, 1));
      now -= 1;
      if (each === 1) throw new Error('one');
      done.push(each);
    };
    const all = [0, 1, 2, 3, 4].map((each) => inTurn(work(each)));
    const ends = await Promise.allSettled(all);
    expect(ends.map(({ status }) => status[0])).toEqual(['f', 'r', 'f', 'f', 'f']);
    expect([most, done]).toEqual([2, [0, 2, 3, 4]]);
  });
});

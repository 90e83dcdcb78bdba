/** What the pages ask the API for, where one answer is not all there is. */
import { describe, expect, it } from 'vitest';
import { openApi } from '../../functions/pages/client.ts';

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

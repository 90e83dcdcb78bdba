/** Which faults a caller of the API is told of, and which stay our own affair. */
import { describe, expect, it } from 'vitest';
import { refusalOf } from '../../src/desk/api/refusal.ts';
import { problem } from '../../functions/api/call.ts';
import { Fault } from '../../src/base/fault.ts';

const told = (fault: Fault) => {
  const refusal = refusalOf(fault);
  return refusal && JSON.parse(problem(refusal).body ?? '');
};

describe('a fault', () => {
  it.each([
    ['missing', 404],
    ['conflict', 409],
    ['input', 422],
  ] as const)('of the kind %s is told as %d, with what to do and where', (kind, status) => {
    const fault = new Fault(kind, 'what is wrong', { remedy: 'what to do', place: 'pattern.json' });
    expect(told(fault)).toEqual({
      title: 'what is wrong',
      status,
      detail: 'what to do',
      place: 'pattern.json',
    });
  });

  it.each(['store', 'usage', 'cancelled'] as const)('of the kind %s is not told', (kind) => {
    expect(told(new Fault(kind, 'inside'))).toBeUndefined();
  });

  it('of a bucket that is missing is not told as something the caller named', () => {
    const cause = new Error('NoSuchBucket');
    expect(told(new Fault('missing', 'the bucket failed at s3://…', { cause }))).toBeUndefined();
  });

  it('tells no address of ours', () => {
    const fault = new Fault('input', 'the upload has 5 bytes; at most 3', {
      place: 's3://uploads/a',
    });
    expect(told(fault)).toEqual({ title: 'the upload has 5 bytes; at most 3', status: 422 });
  });
});

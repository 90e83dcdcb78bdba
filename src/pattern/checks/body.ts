/** Body measurements, needle and notion lengths: inches and centimetres must be one length. */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import type { CheckContext } from './context.ts';
import { unitsOf } from './measurements.ts';

export function checkBody(context: CheckContext): readonly Finding[] {
  const { data } = context;
  return data.body.flatMap(({ part, size }, at) =>
    unitsOf(context, `body measurement ${part}`, size, pointerTo('', 'body', at, 'size')),
  );
}

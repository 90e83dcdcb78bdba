/**
 * Warnings the designer has looked at and accepts, with a reason. An acceptance names a code and a
 * place; one that matches nothing is itself a warning, so that none outlives its reason.
 */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import type { CheckContext } from './context.ts';

export function acceptFindings(
  data: CheckContext['data'],
  findings: readonly Finding[],
): readonly Finding[] {
  const used = new Set<number>();
  const marked = findings.map((each) => {
    if (each.severity !== 'warning') return each;
    const at = data.accepted.findIndex(
      ({ code, where }) => code === each.code && where === each.where.pointer,
    );
    const reason = data.accepted[at]?.reason;
    if (reason === undefined) return each;
    used.add(at);
    return { ...each, accepted: reason };
  });
  const unused = data.accepted.flatMap(({ code, where }, at) => {
    if (used.has(at) || !isOurs(code)) return [];
    const place = { file: 'pattern.json', pointer: pointerTo('', 'accepted', at) };
    return [finding('reference/unused-acceptance', place, { code, pointer: where })];
  });
  return [...marked, ...unused];
}

/** Warnings of a language are found later, when its words are put together. */
const isOurs = (code: string): boolean =>
  /^(count|measure|chart|join|grade|reference|notation|bundle)\//.test(code);

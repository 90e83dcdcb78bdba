/**
 * Findings as JSON for other programs: the same keys in the same order for the same findings, one
 * record each, with the wording beside the facts. The format is stable; keys may be added.
 */
import { blocks, type Finding } from './finding.ts';
import { wordingOf } from './register.ts';

/** A list of findings, indented; ends with a newline. */
export function printFindingsJson(findings: readonly Finding[]): string {
  return JSON.stringify(findingsRecord(findings), null, 2) + '\n';
}

/** The same as a value, to be put into another. */
export const findingsRecord = (findings: readonly Finding[]) => ({
  format: 'castoff-findings/1',
  blocking: findings.filter(blocks).length,
  findings: findings.map(record),
});

function record(item: Finding): Readonly<Record<string, unknown>> {
  const { headline, table, notes, action } = wordingOf(item);
  const { file, pointer, label, text, span } = item.where;
  return {
    code: item.code,
    severity: item.severity,
    blocks: blocks(item),
    headline,
    where: { file, pointer, label, text, span },
    sizes: item.sizes,
    facts: item.facts,
    table,
    notes,
    action,
    related: item.related,
    accepted: item.accepted,
  };
}

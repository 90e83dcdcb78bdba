/**
 * A fault whose reason is a finding: a change that would leave the pattern unreadable, for one. It is
 * thrown like any other, in English, and keeps the finding, so that a page can say it in its reader's
 * language.
 */
import { Fault } from '../base/fault.ts';
import type { Finding } from './finding.ts';
import { wordingOf } from './register.ts';

export class FindingFault extends Fault {
  readonly finding: Finding;

  constructor(finding: Finding, place: string) {
    const { headline, action } = wordingOf(finding);
    super('input', headline, { place, ...(action !== undefined && { remedy: action }) });
    this.finding = finding;
  }
}

/**
 * Changes made on a page: correct a value, accept a warning, take the last change back. A change that
 * is refused comes back on the same page with what was typed; one that is made leads to the page as it
 * is now.
 */
import { Fault } from '../../base/fault.ts';
import { type Answer, seeOther } from '../answer.ts';
import type { Typed } from '../field.ts';
import { fieldOf, type Asked, type Desk } from '../desk.ts';
import { findingsPage } from './findings.ts';
import { numbersPage } from './numbers.ts';

export const correctValue = (desk: Desk, asked: Asked): Promise<Answer> =>
  change(desk, asked, 'correct', (name, form) => {
    const of = (field: string) => fieldOf(form, field);
    const [file, pointer, tag] = [of('file'), of('pointer'), of('tag')];
    return desk.shelf.correct(name, { file, pointer, tag, value: of('value') });
  });

export const acceptWarning = (desk: Desk, asked: Asked): Promise<Answer> =>
  change(desk, asked, 'accept', (name, form) => {
    const of = (field: string) => fieldOf(form, field);
    const [code, where, tag] = [of('code'), of('where'), of('tag')];
    return desk.shelf.accept(name, { code, where, tag, reason: of('value') });
  });

export const undoLast = (desk: Desk, asked: Asked): Promise<Answer> =>
  change(desk, asked, 'undo', (name) => desk.shelf.undo(name));

async function change(
  desk: Desk,
  asked: Asked,
  done: string,
  make: (name: string, form: FormData) => Promise<unknown>,
): Promise<Answer> {
  const name = asked.words['name'] ?? '';
  const form = await asked.call.form();
  try {
    await make(name, form);
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    const { message, remedy } = asked.wording.fault(error);
    const refused = { status: error.kind === 'conflict' ? 409 : 422, slip: { message, remedy, ...typedIn(form) } }; // prettier-ignore
    if (fieldOf(form, 'back') === 'numbers') return numbersPage(desk, asked, refused);
    return findingsPage(desk, asked, refused);
  }
  const back = BACK.find((part) => part === fieldOf(form, 'back'));
  const part = back === undefined ? '' : `/${back}`;
  return seeOther(`/patterns/${encodeURIComponent(name)}${part}?done=${done}`);
}

/** Pages other than the findings from which a value is corrected. */
const BACK = ['release', 'numbers'] as const;

/** What came with the form, to be put back into its field. */
function typedIn(form: FormData): Typed {
  const of = (name: string) => fieldOf(form, name);
  const typed = of('value');
  if (!form.has('code')) return { file: of('file'), pointer: of('pointer'), typed };
  return { file: 'pattern.json', pointer: of('where'), typed, code: of('code') };
}

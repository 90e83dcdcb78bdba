/**
 * Changes made on a page: correct a value, accept a warning, take the last change back. A change that
 * is refused comes back on the same page with what was typed; one that is made leads to the page as it
 * is now.
 */
import { Fault } from '../../base/fault.ts';
import { type Answer, seeOther } from '../answer.ts';
import { accept, correct, undo } from '../correct.ts';
import type { Typed } from '../field.ts';
import { fieldOf, type Asked, type Desk } from '../routes.ts';
import { patternFolder } from '../shelf.ts';
import { findingsPage } from './findings.ts';
import { numbersPage } from './numbers.ts';

export const correctValue = (desk: Desk, asked: Asked): Promise<Answer> =>
  change(desk, asked, 'correct', (folder, form) => {
    const of = (name: string) => fieldOf(form, name);
    const [file, pointer, tag] = [of('file'), of('pointer'), of('tag')];
    return correct(folder, { file, pointer, tag, value: of('value') }, desk.now());
  });

export const acceptWarning = (desk: Desk, asked: Asked): Promise<Answer> =>
  change(desk, asked, 'accept', (folder, form) => {
    const [code, where, tag] = ['code', 'where', 'tag'].map((each) => fieldOf(form, each));
    const reason = fieldOf(form, 'value');
    const at = desk.now();
    return accept(folder, { code: code ?? '', where: where ?? '', tag: tag ?? '', reason }, at);
  });

export const undoLast = (desk: Desk, asked: Asked): Promise<Answer> =>
  change(desk, asked, 'undo', (folder) => undo(folder, desk.now()));

async function change(
  desk: Desk,
  asked: Asked,
  done: string,
  make: (folder: string, form: FormData) => Promise<unknown>,
): Promise<Answer> {
  const name = asked.words['name'] ?? '';
  const folder = await patternFolder(desk.folder, name);
  const form = await asked.call.form();
  try {
    await make(folder, form);
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    const { message, remedy = '' } = error;
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

/**
 * Changes made on a page: correct a value, accept a warning, take the last change back. A change that
 * is refused comes back on the same page with what was typed; one that is made leads to the page as it
 * is now.
 */
import { Fault } from '../../base/fault.ts';
import { type Answer, seeOther } from '../answer.ts';
import { accept, correct, undo } from '../correct.ts';
import { fieldOf, type Asked, type Desk } from '../routes.ts';
import { patternFolder } from '../shelf.ts';
import { findingsPage } from './findings.ts';

export const correctValue = (desk: Desk, asked: Asked): Promise<Answer> =>
  change(desk, asked, 'correct', (folder, form) => {
    const [file, pointer, tag] = ['file', 'pointer', 'tag'].map((each) => fieldOf(form, each));
    const value = fieldOf(form, 'value');
    const at = desk.now();
    return correct(folder, { file: file ?? '', pointer: pointer ?? '', tag: tag ?? '', value }, at);
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
    const slip = { message, remedy, typed: fieldOf(form, 'value') };
    return findingsPage(desk, asked, { status: error.kind === 'conflict' ? 409 : 422, slip });
  }
  const back = fieldOf(form, 'back') === 'release' ? '/release' : '';
  return seeOther(`/patterns/${encodeURIComponent(name)}${back}?done=${done}`);
}

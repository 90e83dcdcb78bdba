/** The fault of a page or a job that needs a pattern which cannot be read yet. */
import { Fault } from '../base/fault.ts';

export const unreadFault = (): Fault =>
  new Fault('input', 'the pattern cannot be read yet', { remedy: 'its findings say where' });

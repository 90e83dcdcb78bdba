/**
 * THE ROUND TRIP: the translation room's door. Prose goes out to a translator as XLIFF with the glossary
 * as TBX, and comes back checked; each translation is tied to the source it was made from. Bytes and
 * findings in and out; it knows no page, no disk and no cloud.
 */
export { checkHeldOver, checkTranslation } from './check.ts';
export { lackingEntries, surveyProse, type ProseSurvey } from './survey.ts';
export { writeProse } from './prose-file.ts';
export { recordFor } from './segments.ts';
export { sendOut, type SendOrder, type SentOut } from './send-out.ts';
export {
  languageOf,
  patternNamedIn,
  takeBack,
  type TakenBack,
  type TakeOrder,
} from './take-back.ts';
export { writeTbx } from './tbx.ts';

/**
 * HOW IT IS SAID: the language room's door. Languages are folders of data in `locales/`; this room
 * loads them, says lines of instructions from their trees, says names, numbers and units, lists the
 * abbreviations used, and finds what a language lacks. It knows no page and no cloud.
 */
export { plainText, type SpokenLine, type SpokenPart, type SpokenRole } from './spoken.ts';
export { hasText, sayText, text, type Language, type Spoken } from './language.ts';
export {
  LANGUAGE_FILES,
  languageFrom,
  loadLanguages,
  type LanguageFile,
  type LanguageFiles,
} from './load.ts';
export type { LanguageSettings } from './settings.ts';
export { sayActions } from './actions.ts';
export type { SayContext } from './context.ts';
export { sayLabel, sayLine, sayStitches } from './line.ts';
export {
  namesFor,
  partsOf,
  sayPattern,
  type SpokenPattern,
  type SpokenPiece,
  type SpokenSection,
} from './say-pattern.ts';
export { explainTerm, meaningOfTerm, sortTerms, usedTerms, type UsedTerm } from './terms.ts';
export { listSizeNames, saySizeNames, sizeName } from './sizes.ts';
export { decimal, listOver, sayNumber } from './numbers.ts';
export {
  sayCentimetres,
  sayDate,
  sayGaugeSquare,
  sayGrams,
  sayInches,
  sayLength,
  sayNeedle,
  sayYarnLength,
  sayYarnLengths,
  type LengthOver,
} from './units.ts';
export {
  capitalised,
  isUnknownName,
  proseFor,
  proseLine,
  sayChartName,
  sayFabric,
  sayInFabric,
  sayName,
  sayYarn,
  type Names,
  type WordGroup,
} from './words.ts';
export { aloudStitch, canSayStitch, sayStitch } from './stitch.ts';
export { chartText, stitchMeaning } from './chart-text.ts';
export { sayBall, sayEase, sayFibres, sayGauge, sayNeedleLine, sayNotion } from './materials.ts';
export { checkLanguage, checkLanguageData } from './completeness.ts';
export { agreeInNumbers, checkProseParity, checkRowParity, numbersOfLine } from './parity.ts';
export { overviewOf, type LanguageOverview } from './overview.ts';
export { proseKeys } from './needs.ts';

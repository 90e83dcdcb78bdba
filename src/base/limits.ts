/**
 * Every limit in one place: how large, how many, how deep. A bundle comes from a stranger, so nothing
 * in it may make the program run long or fill the memory. Each number says why it is what it is;
 * going over one is a finding or a fault that names the limit, never a crash or a silent cut.
 */
const KIB = 1024;
const MIB = 1024 * KIB;

/** What may be unpacked. Checked against the zip's directory before a byte is inflated. */
export const BUNDLE_LIMITS = {
  /** A zip as uploaded. Forty photographs of 5 MB, with room. */
  zipBytes: 300 * MIB,
  /** Files: 40 photographs, 40 languages, the pattern, and what a designer forgot in the folder. */
  files: 500,
  /** All files together, unpacked; fits a function of 1.7 GB with its copies. */
  totalBytes: 400 * MIB,
  /** One photograph, as a camera writes it. */
  fileBytes: 48 * MIB,
  /** One JSON file. The longest pattern known to the trade is a hundredth of it. */
  jsonBytes: 4 * MIB,
  /** Unpacked over packed, for files above `ratioFreeBytes`. Prose packs 1:10, photographs 1:1. */
  ratio: 100,
  ratioFreeBytes: 1 * MIB,
  /** A path inside the bundle. */
  pathLength: 200,
  /** Folders within folders. */
  pathDepth: 6,
} as const;

export const JSON_LIMITS = {
  /** Lists and records within each other; the bundle format itself needs eight. */
  depth: 32,
  /** Findings of one kind of slip shown from one file; the rest are counted. */
  findings: 100,
} as const;

export const PICTURE_LIMITS = {
  /** Decoded size; the largest cameras on sale have 150 megapixels. */
  megapixels: 200,
  edgePixels: 30_000,
} as const;

/** One publishing run. */
export const RUN_LIMITS = {
  languages: 40,
  editions: 24,
  /** Languages times editions; their records must fit one hand-over. */
  documents: 500,
  /** Documents composed at once in one process. */
  concurrency: 16,
  /** Steps a run may take before it is taken for endless. */
  transitions: 20_000,
  /** What a step may hand to the next; the rest goes by claim. Step Functions allows 256 KiB. */
  payloadBytes: 240 * KIB,
} as const;

/** What one stitch may be. Rules read any number, so the number itself is bounded. */
export const STITCH_LIMITS = {
  /** Stitches of one crossing; the widest cables of the trade have 24. */
  crossing: 40,
  /** Stitches worked as one, wraps round the needle, stitches passed over. */
  together: 40,
  /** Letters in a written form, the longest ones being phrases. */
  letters: 60,
  /** Written forms whose entry is remembered; a large pattern has some hundreds. */
  remembered: 20_000,
} as const;

/** One line of notation, and a text of many. */
export const NOTATION_LIMITS = {
  /** Characters of one line; a bundle allows 2000. */
  lineLength: 12_000,
  /** Brackets within brackets; real rows need three. */
  depth: 12,
  /** Problems told about one line; the first is nearly always the cause of the rest. */
  problems: 12,
  /** Times, counts and rows: no hand knits more. */
  number: 99_999,
  /** A pasted text and its lines; the longest patterns have a twentieth of it. */
  textLength: 400_000,
  lines: 5_000,
} as const;

/** Working the rows. A blanket for a large bed has 500 stitches and 3,000 rows. */
export const NEEDLE_LIMITS = {
  /** Rows one line may work; repeats beyond it are a slip of the pen. */
  rowsPerLine: 20_000,
  /** Rows of one piece. */
  rowsPerPiece: 100_000,
  /** Stitches on the needle. */
  stitches: 1_000_000,
  /** Single steps one row may take, over all its repeats. */
  stepsPerRow: 200_000,
  /** Problems in one piece and size after which the rest is resumed without looking ahead. */
  lookAheads: 12,
  /** Variants of a row tried in search of a correction. */
  correctionTrials: 400,
} as const;

/** Rules of numbers, and the search for counts that fit each other. */
export const RULE_LIMITS = {
  /** Brackets within brackets; real rules need two. */
  depth: 12,
  /** Choices the search may look at for one size before it gives up and says so. */
  searchSteps: 200_000,
  /** Counts tried on each side of the nearest one. */
  searchReach: 4,
} as const;

/** Setting and painting. */
export const PRESS_LIMITS = {
  /** Letters shaped together; longer words are cut. No word of any language is as long. */
  wordLetters: 128,
  /** Symbols of a drawing within each other. */
  symbolDepth: 4,
} as const;

/** Running text handed to `castoff count`. */
export const TEXT_LIMITS = {
  /** A long pattern has about 60,000 characters. */
  characters: 1_000_000,
} as const;

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
  /** Tries to be the one who starts the next run of a bundle, where several want to at once. */
  turns: 10,
  /** Documents composed at once in one process. */
  concurrency: 16,
  /** Hours after which no run is at work any more; the state machine stops one after one hour. */
  longestHours: 2,
  /** Steps a run may take before it is taken for endless. */
  transitions: 20_000,
  /** What a step may hand to the next; the rest goes by claim. Step Functions allows 256 KiB. */
  payloadBytes: 240 * KIB,
} as const;

/** What a caller of the API may ask for, and how fast. */
export const API_LIMITS = {
  /** Seconds in which an upload that was opened must begin. */
  uploadSeconds: 15 * 60,
  /** Seconds for which the address of a file is good. */
  downloadSeconds: 15 * 60,
  /** Releases told at once; the rest by asking on. */
  releasesPerPage: 100,
  /** Runs told at once, the latest; two requests to the store are made for each. */
  runs: 50,
  /** Versions of one pattern that are listed. */
  versions: 1_000,
  /** Proofs and test copies of one pattern that are listed. */
  copies: 200,
  /** Findings told at once: an answer of a function may have 6 MB. */
  findings: 500,
  /** All files of a release in one zip: what the format can tell without its longer form. */
  zipBytes: 4 * 1024 * MIB - 1,
  /** So long a zip that was ordered may be waited for: three tries of four minutes, with pauses. */
  zipSeconds: 15 * 60,
  /** A request as JSON; the longest order of languages and editions is a tenth of it. */
  bodyBytes: 16 * KIB,
  /** A change of a bundle; eight thousand letters, each escaped at worst. */
  changeBytes: 64 * KIB,
  /** A JSON file of a bundle as a text in JSON, and that once more in an event: a function takes 6 MB. */
  replacementBytes: 4 * MIB,
  /** A draft: a bundle as it may be unpacked, zipped. */
  draftBytes: 410 * MIB,
  /** After so long nobody is at an upload any more: longer than the function may work. */
  arrivalSeconds: 35,
  /** Requests of one route each second, on average and in a burst, for all callers together. */
  requestsPerSecond: 50,
  burst: 100,
  /** After so long a run that has not said how it ended never will: its own limit is an hour. */
  lostAfterSeconds: 65 * 60,
} as const;

/** Each route of the sign-in, for all who are strangers yet, together. */
export const SIGN_IN_LIMITS = {
  /** A studio of fifty signs in within ten seconds. */
  requestsPerSecond: 5,
  burst: 20,
} as const;

/** The pages in the cloud, and their sign-in. */
export const PAGES_LIMITS = {
  /** A browser keeps cookies of 4096 bytes with name and flags (RFC 6265, 6.1). */
  tokenLetters: 3_900,
  /** From the way to the issuer to the way back: a password, a second factor, a cup of tea. */
  visitSeconds: 15 * 60,
  /** What the issuer says of itself, and its keys, are asked for again after so long. */
  rememberedSeconds: 3_600,
  /** The issuer and the API have this long to answer; the gateway itself waits for half a minute. */
  waitSeconds: 25,
  /** A form with its files: a function is handed 6 MB at most, written in four thirds as many letters. */
  formBytes: 4 * MIB,
  /** An answer; a larger one is put where the browser can fetch it. */
  answerBytes: 4 * MIB,
  /** Files of patterns that are remembered by their hash. */
  rememberedBytes: 256 * MIB,
} as const;

/** What the desk takes from a browser on the same machine, and keeps. */
export const DESK_LIMITS = {
  /** One form with its files: a bundle as it may be unpacked, and the form around it. */
  formBytes: 410 * MIB,
  /** Sending one form: 400 MB from a slow disk. */
  requestSeconds: 300,
  /** Patterns of one folder that are shown. */
  patterns: 500,
  /** A value corrected on the page; a row of a bundle has 2000 characters. */
  valueLetters: 8_000,
  /** Findings on one page; the rest are counted. */
  findings: 300,
  /** Runs of a pattern that are remembered. */
  runs: 50,
  /** Progress told of one run. */
  events: 2_000,
  /** A worker that says nothing for so long over one job is ended; the largest takes a few seconds. */
  jobSeconds: 180,
  /** As long as the cloud lets a run go on. */
  runSeconds: 3_600,
  /** A worker that was asked to stop may still finish what it is at. */
  stopSeconds: 2,
  /** Restarts of the desk over which one run is taken up again. */
  resumes: 3,
} as const;

/** Bundles that lie in an object store. */
export const SHELF_LIMITS = {
  /** Files read or written at once: of 40 photographs none waits long, and few lie in memory twice. */
  concurrency: 8,
  /** Times that a change is made anew where somebody else was faster. */
  tries: 10,
  /** Of the history that is kept: some thousand changes of numbers and rows. */
  historyLetters: 1_000_000,
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
  /** Runs of stitches and marks on one needle: a shawl of 500 repeats has a marker at each. */
  strands: 2_000,
  /** Single steps one row may take, over all its repeats. */
  stepsPerRow: 200_000,
  /** Problems in one piece and size after which the rest is resumed without looking ahead. */
  lookAheads: 12,
  /** Variants of a row tried in search of a correction. */
  correctionTrials: 400,
} as const;

/** Rules of numbers, and the search for counts that fit each other. */
export const RULE_LIMITS = {
  /** Of a whole rule; one with a multiple for each of twenty sizes still fits. */
  letters: 300,
  /** Brackets within brackets; real rules need two. */
  depth: 12,
  /** Choices the search may look at for one size before it gives up and says so. */
  searchSteps: 200_000,
  /** Counts tried on each side of the nearest one. */
  searchReach: 4,
  /** Stitches of a repeat, and of what balances it. */
  multiple: 99_999,
} as const;

/** A spreadsheet that numbers are taken back from. */
export const SHEET_LIMITS = {
  fileBytes: 10 * MIB,
  /** Unpacked; twelve sizes of two hundred numbers are a thousandth of it. */
  unpackedBytes: 100 * MIB,
  rows: 10_000,
  /** Columns of a returned sheet that are looked at. */
  columns: 40,
} as const;

/** Packets for editors and test knitters, and what comes back of them. */
export const PACKET_LIMITS = {
  /** The record of a packet; four thousand numbers take 1 MB. */
  recordBytes: 20 * MIB,
  /** Sheets read in one call: more than any test group has knitters. */
  sheets: 200,
  /** Bytes of one returned sheet. */
  sheetBytes: 5 * MIB,
  /** Counts a test knitter is asked for in one piece. */
  countsPerPiece: 6,
  /** Letters of one answer. */
  answerLetters: 4_000,
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

/** What a shop profile may ask for. */
export const SHOP_LIMITS = {
  /** The longest edge of a picture for a shop. */
  picturePixels: 6_000,
  /** Letters in a name of a file, so that it fits every disk and every form. */
  nameLetters: 80,
} as const;

/** What comes back from a translator. The longest pattern's file has about 200 KB. */
export const TRANSLATION_LIMITS = {
  fileBytes: 8 * MIB,
  /** Elements within each other; a file of ours has seven. */
  depth: 40,
  elements: 100_000,
  /** Characters of one translated text, as in a bundle. */
  textLetters: 8_000,
} as const;

/**
 * The plain words of written instructions and their short forms, as data: British and US words, full
 * and abbreviated, all lead to one term that the grammar asks for. Stitches are not here; they are in
 * the catalogue. Sources: the trade council's list of abbreviations, and common practice.
 */
const WRITTEN: Readonly<Record<string, readonly string[]>> = {
  row: ['rows'],
  round: ['rounds', 'rnd', 'rnds', 'rd', 'rds'],
  sts: ['st', 'stitch', 'stitches', 'sts'],
  rep: ['repeat', 'repeats', 'rep', 'reps', 'repeating'],
  beg: ['beginning', 'begin', 'begins', 'beg', 'start'],
  end: ['end', 'ends'],
  ending: ['ending', 'finishing'],
  rem: ['remain', 'remains', 'remaining', 'rem'],
  dec: ['decrease', 'decreases', 'dec', 'decs', 'decreasing'],
  inc: ['increase', 'increases', 'inc', 'incs', 'increasing'],
  decreased: ['decreased', "dec'd", 'decd'],
  increased: ['increased', "inc'd", 'incd'],
  foll: ['following', 'foll', 'follows'],
  alt: ['alternate', 'alternating', 'alt'],
  every: ['every'],
  cont: ['continue', 'continuing', 'cont', 'continues'],
  patt: ['pattern', 'patt', 'pat', 'patts', 'patterns'],
  marker: ['marker', 'markers', 'm', 'mkr', 'mkrs'],
  pm: ['pm'],
  sm: ['sm', 'slm'],
  rm: ['rm'],
  place: ['place', 'pl', 'placing'],
  slip: ['slip', 'sl', 'slipping'],
  needle: ['needle', 'needles', 'ndl', 'ndls'],
  until: ['until', 'till', 'til'],
  measures: ['measures', 'measure', 'meas', 'measuring'],
  times: ['times', 'time', 'x', '×'],
  in: ['in', 'into'],
  inches: ['inch', 'inches', 'ins'],
  cm: ['cm', 'cms', 'centimetres', 'centimeters', 'centimetre', 'centimeter'],
  co: ['co'],
  bo: ['bo'],
  worked: ['worked'],
  work: ['work', 'works', 'working'],
  tog: ['together', 'tog'],
  and: ['and', '&'],
  RS: ['rs'],
  WS: ['ws'],
  size: ['size', 'sizes'],
  on: ['on', 'onto'],
  break: ['break', 'cut'],
  draw: ['draw', 'thread', 'pull', 'run', 'drawing', 'threading'],
  color: ['color', 'colour'],
  center: ['center', 'centre'],
  turn: ['turn', 'turning'],
  join: ['join', 'joining', 'rejoin', 'attach'],
  as: ['as', 'like'],
};

export const TERMS: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(WRITTEN).flatMap(([term, forms]) => forms.map((form) => [form, term])),
);

export const NUMBER_WORDS: Readonly<Record<string, number>> = {
  one: 1, two: 2, three: 3, four: 4, five: 5, six: 6, seven: 7, eight: 8, nine: 9, ten: 10,
  eleven: 11, twelve: 12, thirteen: 13, fourteen: 14, fifteen: 15, sixteen: 16, seventeen: 17,
  eighteen: 18, nineteen: 19, twenty: 20,
}; // prettier-ignore

/** Words the grammar knows besides stitches: candidates when a word is not understood. */
export const KNOWN_WORDS: readonly string[] = [
  ...new Set(Object.values(WRITTEN).flat()),
  'across', 'all', 'around', 'armhole', 'at', 'BOR', 'both', 'but', 'by', 'cast', 'bind', 'off', 'chart',
  'each', 'edge', 'established', 'even', 'evenly', 'fasten', 'for', 'from', 'gap', 'graft', 'held', 'holder',
  'instead', 'knit', 'purl', 'last', 'leaving', 'mark', 'more', 'neck', 'next', 'of', 'once', 'only', 'over',
  'past', 'pick', 'return', 'same', 'set', 'slide', 'straight', 'then', 'thrice', 'through', 'to', 'twice',
  'unworked', 'up', 'using', 'w&t', 'waste', 'with', 'within', 'yarn', 'before', 'side', 'st', 'where', 'when',
]; // prettier-ignore

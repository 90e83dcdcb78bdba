/** Findings of the family `join`: pieces that meet and do not agree. */
import { entry, type Facts } from '../finding.ts';
import { listed, sizesSay } from './wording.ts';

type Values = readonly (number | null)[];

type Join = Facts & {
  readonly parts: readonly string[];
  readonly to: readonly string[];
  readonly sizes: readonly string[];
  readonly affected: readonly number[];
  readonly first: Values;
  readonly second: Values;
};

function word(facts: Join, unit: string, verb: string) {
  const { who } = sizesSay(facts.sizes, facts.affected);
  const at = (values: Values) => {
    const said = facts.affected.map((size) => String(values[size] ?? '–'));
    const different = [...new Set(said)];
    return different.length === 1
      ? different[0]
      : listed(said.length > 4 ? [...said.slice(0, 3), '…'] : said);
  };
  const rows = [
    { name: listed(facts.parts), cells: facts.first },
    { name: listed(facts.to), cells: facts.second },
  ];
  return {
    headline: `${listed(facts.parts)} ${facts.parts.length > 1 ? 'come' : 'comes'} to ${at(facts.first)} ${unit} and ${listed(facts.to)} to ${at(facts.second)} in ${who}; ${verb}`,
    ...(facts.sizes.length > 1 && { table: { sizes: facts.sizes, rows } }),
  };
}

export const joinFamily = {
  'join/unequal': entry<Join>({
    severity: 'error',
    about: 'Stitches that are joined one to one are not equal.',
    word: (facts) => word(facts, 'sts', 'they are joined one to one'),
  }),
  'join/sum': entry<Join>({
    severity: 'error',
    about: 'Parts do not add up to the stitches they make together.',
    word: (facts) => word(facts, 'sts', 'the parts should add up'),
  }),
  'join/seam': entry<Join>({
    severity: 'error',
    about: 'Edges that are sewn together have another number of rows.',
    word: (facts) => word(facts, 'rows', 'the edges are sewn together'),
  }),
  'join/eased': entry<Join>({
    severity: 'warning',
    about: 'Edges that are sewn together differ by some rows, which have to be eased in.',
    word: (facts) => word(facts, 'rows', 'the longer edge has to be eased in'),
  }),
  'join/pick-up': entry<Join & { rate: Values }>({
    severity: 'warning',
    about: 'Stitches picked up along an edge do not fit its rows through the gauge.',
    word: (facts) => word(facts, 'sts', 'through the gauge they would lie flat'),
  }),
} as const;

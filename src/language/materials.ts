/**
 * The material list in words: fibres, balls, needles, notions, gauges and ease. Takes pieces of bundle
 * data, gives whole phrases of the language; units and sizes by country. Sizes grow no other way here
 * than in the instructions.
 */
import type { BundleData, GaugeData } from '../pattern/bundle/schema.ts';
import { sizedOf, type Sized } from '../pattern/bundle/size-list.ts';
import { sayText, text, type Language, type Spoken } from './language.ts';
import { joinParts, spoken } from './message.ts';
import { agreement, choose, decimal, sayNumber } from './numbers.ts';
import {
  bothUnits, sayGaugeSquare, sayGrams, sayLength, sayNeedle, sayYarnLength, type LengthOver,
} from './units.ts'; // prettier-ignore
import { sayInFabric, sayName, type Names } from './words.ts';

type YarnData = BundleData['yarns'][number];
type NeedleData = BundleData['needles'][number];
type NotionData = BundleData['notions'][number];

/** `80% wool, 20% nylon`: by weight, the largest first. */
export function sayFibres(language: Language, names: Names, yarn: YarnData): Spoken {
  const sorted = [...yarn.fibres].sort((a, b) => b.percent - a.percent);
  return joinParts(
    sorted.map(({ fibre, percent }) =>
      sayText(language, 'yarn.fibre', {
        percent: spoken(decimal(language, percent), 'count'),
        fibre: sayName(language, names, 'fibre', fibre),
      }),
    ),
    language.settings.separators.list,
  );
}

/** `220 yd / 200 m per 100 g`. */
export const sayBall = (language: Language, yarn: YarnData): Spoken =>
  sayText(language, 'yarn.ball', {
    length: sayYarnLength(language, yarn.ball.metres, yarn.ball.yards),
    grams: sayGrams(language, sizedOf(yarn.ball.grams)),
  });

/** `Worsted / Medium (4)`: the standard weight by its number. */
export const sayYarnWeight = (language: Language, weight: number): string =>
  text(language, `yarnWeight.${weight}`);

/** `US 7 (4.5 mm) circular needle, 24 in / 60 cm long, for body`. */
export function sayNeedleLine(
  language: Language,
  names: Names,
  needle: NeedleData,
  length: LengthOver | undefined,
): Spoken {
  const size = sayNeedle(language, needle.mm);
  const kind = `needle.${needle.kind}`;
  const said = length
    ? sayText(language, `${kind}.long`, { size, length: sayLength(language, length) })
    : sayText(language, kind, { size });
  if (needle.purpose === undefined) return said;
  const purpose = sayName(language, names, 'word', needle.purpose);
  return sayText(language, 'needle.for', { needle: said, purpose });
}

/** `4 stitch markers`, `tapestry needle`. */
export function sayNotion(
  language: Language,
  notion: Pick<NotionData, 'kind'>,
  count: Sized | undefined,
  length: LengthOver | undefined,
  size?: number,
): Spoken {
  const chosen = count && choose(count, size);
  const said = chosen
    ? sayText(
        language,
        `notion.${notion.kind}.counted`,
        { n: sayNumber(language, chosen) },
        { count: agreement(language, chosen) },
      )
    : sayText(language, `notion.${notion.kind}`);
  if (!length) return said;
  return sayText(language, 'notion.sized', {
    notion: said,
    length: sayLength(language, length, size),
  });
}

/** `20 sts and 28 rows = 4 in / 10 cm in stockinette on US 7 (4.5 mm) needles, after blocking`. */
export function sayGauge(language: Language, names: Names, gauge: GaugeData): Spoken {
  const needle = names.data.needles.find((each) => each.id === gauge.needle);
  const said = sayText(
    language,
    'gauge.line',
    {
      stitches: spoken(decimal(language, gauge.stitches), 'count'),
      rows: spoken(decimal(language, gauge.rows), 'count'),
      square: sayGaugeSquare(language, gauge.over),
      fabric: sayInFabric(language, names, gauge.pattern),
      needle: needle ? sayNeedle(language, needle.mm) : spoken('–'),
    },
    { context: gauge.form },
  );
  return gauge.blocked ? sayText(language, 'gauge.blocked', { gauge: said }) : said;
}

/** `Designed to be worn with about 2 in / 5 cm of positive ease at the bust.` */
export function sayEase(language: Language, part: string, ease: LengthOver, size?: number): Spoken {
  const { inches } = bothUnits(ease);
  const values = choose(inches, size).values.filter((value): value is number => value !== null);
  const slots = { part: text(language, `body.${part}`) };
  if (values.every((value) => value === 0)) return sayText(language, 'ease.none', slots);
  const negative = values.every((value) => value <= 0);
  const length = sayLength(language, negative ? negated(ease) : ease, size);
  return sayText(language, negative ? 'ease.negative' : 'ease.positive', { ...slots, length });
}

const negated = ({ inches, centimetres }: LengthOver): LengthOver => ({
  ...(inches && { inches: minus(inches) }),
  ...(centimetres && { centimetres: minus(centimetres) }),
});

const minus = (sized: Sized): Sized => ({
  values: sized.values.map((value) => (value === null || value === 0 ? value : -value)),
  spans: [],
});

/**
 * Working even: in a stitch, a fabric, a chart or as established, over rows, a length or as what each
 * row of a label does.
 */
import type { Sentence } from '../pattern/notation/ast.ts';
import { chartName } from './actions.ts';
import { agree, number, unitOf, type SayContext } from './context.ts';
import { sayEnding, sayExtent, stretchOf } from './extents.ts';
import { sayForm, type Spoken } from './language.ts';
import type { Choice } from './message.ts';
import { isStitchFabric, sayStitchRun } from './stitch.ts';
import { isChart, sayInFabric } from './words.ts';

type Of<Kind extends Sentence['kind']> = Extract<Sentence, { kind: Kind }>;

export function sayWorkEven(sentence: Of<'workEven'>, context: SayContext): Spoken {
  const said = sayStretch(sentence, context);
  return sentence.beginning ? sayBeginning(said, sentence.beginning, context) : said;
}

/** `…, beginning with a WS row`. */
function sayBeginning(
  sentence: Spoken,
  beginning: NonNullable<Of<'workEven'>['beginning']>,
  context: SayContext,
): Spoken {
  const { language } = context;
  if ('side' in beginning) {
    return sayForm(language, 'beginning.side', { sentence }, { context: beginning.side });
  }
  if ('row' in beginning) {
    const n = number(context, beginning.row);
    return sayForm(language, 'beginning.row', { sentence, n }, { context: unitOf(context) });
  }
  const verb = sayStitchRun(language, beginning.stitch, 'run');
  return sayForm(language, 'beginning.stitch', { sentence, verb });
}

function sayStretch(sentence: Of<'workEven'>, context: SayContext): Spoken {
  const { language, names } = context;
  const { fabric, extent } = sentence;
  if (fabric !== undefined && isStitchFabric(language, fabric)) {
    const verb = sayStitchRun(language, fabric, 'verb');
    if (extent.kind === 'once') {
      return sayEnding(sayForm(language, 'workAll', { verb }), extent, context);
    }
    if (extent.kind === 'rows') {
      const choice = agree(context, extent.count, unitOf(context));
      const n = number(context, extent.count);
      const rows = sayForm(language, 'workEven.stitchRows', { verb, n }, choice);
      return sayEnding(rows, extent, context);
    }
    const slots = { verb, extent: sayExtent(extent, context) };
    return sayForm(language, 'workEven.stitch', slots, { context: stretchOf(extent) });
  }
  if (extent.kind === 'once') return sayEnding(sayWorkOnce(fabric, context), extent, context);
  const said = sayExtent(extent, context);
  const choice: Choice = { context: stretchOf(extent) };
  if (fabric === undefined) {
    return sayForm(language, 'workEven.established', { extent: said }, choice);
  }
  if (isChart(names, fabric)) {
    const chart = chartName(context, fabric);
    return sayForm(language, 'workEven.chart', { chart, extent: said }, choice);
  }
  const inFabric = sayInFabric(language, names, fabric);
  return sayForm(language, 'workEven.fabric', { fabric: inFabric, extent: said }, choice);
}

/** What each row of a label does: `Rows 1–8: work in rib`. */
function sayWorkOnce(fabric: string | undefined, context: SayContext): Spoken {
  const { language, names } = context;
  if (fabric === undefined) return sayForm(language, 'workEven.establishedOnce', {});
  if (isChart(names, fabric)) {
    return sayForm(language, 'chart.whole', { chart: chartName(context, fabric) });
  }
  const inFabric = sayInFabric(language, names, fabric);
  return sayForm(language, 'workEven.fabricOnce', { fabric: inFabric });
}

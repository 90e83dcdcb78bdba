/**
 * Working even: in a stitch, a fabric, a chart or as established, over rows, a length or as what each
 * row of a label does.
 */
import type { Sentence } from '../pattern/notation/ast.ts';
import { chartName } from './actions.ts';
import { agree, number, unitOf, type SayContext } from './context.ts';
import { sayExtent, stretchOf } from './extents.ts';
import { sayForm, type Spoken } from './language.ts';
import type { Choice } from './message.ts';
import { findStitch, sayStitchRun, stitchTemplate } from './stitch.ts';
import { isChart, sayInFabric } from './words.ts';

type Of<Kind extends Sentence['kind']> = Extract<Sentence, { kind: Kind }>;

export function sayWorkEven(sentence: Of<'workEven'>, context: SayContext): Spoken {
  const { language, names } = context;
  const { fabric, extent } = sentence;
  if (fabric !== undefined && isStitch(fabric, context)) {
    const verb = sayStitchRun(language, fabric, 'verb');
    if (extent.kind === 'once') return sayForm(language, 'workAll', { verb });
    if (extent.kind === 'rows') {
      const choice = agree(context, extent.count, unitOf(context));
      const n = number(context, extent.count);
      return sayForm(language, 'workEven.stitchRows', { verb, n }, choice);
    }
    const slots = { verb, extent: sayExtent(extent, context) };
    return sayForm(language, 'workEven.stitch', slots, { context: stretchOf(extent) });
  }
  if (extent.kind === 'once') return sayWorkOnce(fabric, context);
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

/** A fabric that is one stitch all along the row, such as `k`. */
function isStitch(fabric: string, { language }: SayContext): boolean {
  const found = findStitch(language, fabric);
  return found !== undefined && stitchTemplate(language, found, 'verb') !== undefined;
}

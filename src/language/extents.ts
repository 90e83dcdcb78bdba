/**
 * How far something goes: a length from an edge, a number of rows, a count that remains, a number of
 * times; and when something that runs along begins.
 */
import { assertNever } from '../base/assert.ts';
import type { Extent } from '../pattern/notation/ast.ts';
import { agree, number, unitOf, type SayContext } from './context.ts';
import { sayForm, type Spoken } from './language.ts';
import { choose, exactly } from './numbers.ts';
import { sayLength } from './units.ts';

export function sayExtent(extent: Extent, context: SayContext): Spoken {
  return sayEnding(sayPlainExtent(extent, context), extent, context);
}

/** `…, ending with a WS row`, `…, ending with row 8`: after an extent or a whole sentence. */
export function sayEnding(said: Spoken, extent: Extent, context: SayContext): Spoken {
  const { language } = context;
  if (extent.endingRow) {
    const n = number(context, extent.endingRow);
    return sayForm(language, 'extent.endingRow', { extent: said, n }, { context: unitOf(context) });
  }
  if (!extent.ending) return said;
  return sayForm(language, 'extent.endingSide', { extent: said }, { context: extent.ending });
}

function sayPlainExtent(extent: Extent, context: SayContext): Spoken {
  const { language } = context;
  switch (extent.kind) {
    case 'length': {
      const length = sayLength(language, extent.length, context.size);
      return sayForm(language, 'extent.length', { length }, { context: extent.from });
    }
    case 'rows': {
      const n = number(context, extent.count);
      return sayForm(language, 'extent.rows', { n }, agree(context, extent.count, unitOf(context)));
    }
    case 'count': {
      const n = number(context, extent.count);
      return sayForm(language, 'extent.count', { n }, agree(context, extent.count));
    }
    case 'more':
    case 'total': {
      const n = number(context, extent.times);
      const exact = exactly(choose(extent.times, context.size));
      return sayForm(language, `extent.${extent.kind}`, { n }, agree(context, extent.times, exact));
    }
    case 'once':
      return sayForm(language, 'extent.once', {});
    default:
      return assertNever(extent);
  }
}

/** `when piece measures 4 in from cast-on`, `after 10 rows`. */
export function sayStart(start: Extent, context: SayContext): Spoken {
  const { language } = context;
  if (start.kind === 'length') {
    const length = sayLength(language, start.length, context.size);
    return sayForm(language, 'start.length', { length }, { context: start.from });
  }
  if (start.kind === 'rows' || start.kind === 'count') {
    const n = number(context, start.count);
    return sayForm(
      language,
      `start.${start.kind}`,
      { n },
      agree(context, start.count, unitOf(context)),
    );
  }
  return sayExtent(start, context);
}

/**
 * What kind of stretch an extent is, for languages whose sentence differs: a clause ("until …") or a
 * measure ("for 12 rows", "for 3 in").
 */
export const stretchOf = (extent: Extent): Extent['kind'] =>
  extent.kind === 'length' && extent.from === 'here' ? 'rows' : extent.kind;

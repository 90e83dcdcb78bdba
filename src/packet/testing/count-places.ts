/**
 * Places where a knitter can stop and count: after the cast-on, at the end of each section, at lines the
 * designer named or states a count for. Takes an order for one size, gives at most a handful for each piece, each with the
 * stitches that are then on the needle.
 */
import { PACKET_LIMITS } from '../../base/limits.ts';
import { placeOf } from '../../pattern/needle/gather.ts';
import { plainText } from '../../language/index.ts';
import type { EditionOrder } from '../../press/edition/order.ts';
import { sayOrder } from '../../press/edition/view/instructions.ts';

export interface CountPlace {
  /** `hat/3`: the piece, and the position of the line in it. */
  readonly key: string;
  /** The piece, in the knitter's language. */
  readonly part: string;
  /** "Crown, Rnd 7" */
  readonly place: string;
  readonly stitches: number;
  /** The same place as the designer's findings name it. */
  readonly label: string;
}

interface Candidate extends CountPlace {
  readonly isNamed: boolean;
  readonly isLast: boolean;
}

export function countPlaces(order: EditionOrder): readonly CountPlace[] {
  const said = sayOrder(order);
  const size = order.size ?? 0;
  const { list } = order.language.settings.separators;
  return order.checked.pieces.flatMap((trace) => {
    const piece = said.pieces.find(({ id }) => id === trace.piece.data.id);
    if (!piece) return [];
    const positions = new Map(trace.lines.map(({ line }, at) => [line.pointer, at]));
    const candidates = piece.sections.flatMap(({ title, lines }) =>
      lines.flatMap(({ written, said: line }, at): readonly Candidate[] => {
        const position = positions.get(written.pointer) ?? -1;
        const outcome = trace.lines[position]?.outcomes[size];
        if (!outcome || outcome.skipped || outcome.failed || outcome.after === 0) return [];
        const label = plainText(line.label).replace(/[\s:：]+$/u, '');
        const where = label === '' ? shortened(plainText(line.body)) : label;
        const names = [title === piece.title ? undefined : title, where];
        return [
          {
            key: `${piece.id}/${position}`,
            part: piece.title,
            place: names.filter((name) => name !== undefined && name !== '').join(list),
            stitches: outcome.after,
            label: placeOf(order.checked.pattern, trace.piece, position).label ?? '',
            isNamed: written.id !== undefined || written.line?.stated !== undefined,
            isLast: at === lines.length - 1,
          },
        ];
      }),
    );
    return chosen(candidates);
  });
}

/** The cast-on, then every count that is another one; where they are many, those that change most. */
function chosen(candidates: readonly Candidate[]): readonly Candidate[] {
  const worth = candidates.filter(({ isNamed, isLast }, at) => at === 0 || isNamed || isLast);
  const fresh = worth.filter(({ stitches }, at) => stitches !== worth[at - 1]?.stitches);
  const steps = fresh.map(({ stitches }, at) => ({
    at,
    change: at === 0 ? Infinity : Math.abs(stitches - (fresh[at - 1]?.stitches ?? 0)),
  }));
  const kept = new Set(
    steps.sort((a, b) => b.change - a.change || a.at - b.at).slice(0, PACKET_LIMITS.countsPerPiece).map(({ at }) => at),
  ); // prettier-ignore
  return fresh.filter((_, at) => kept.has(at));
}

const LONGEST_PLACE = 48;

/** The beginning of a line that has no label, cut between two words. */
function shortened(text: string): string {
  const line = text.replaceAll(/\s+/g, ' ').trim();
  if (line.length <= LONGEST_PLACE) return line.replace(/[.。]$/u, '');
  return `${line.slice(0, LONGEST_PLACE).replace(/\s\S*$/u, '')} …`;
}

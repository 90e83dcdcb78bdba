/**
 * The technical editor's packet of one checked pattern, gathered once and then printed as PDF and written
 * as a workbook. Takes the pattern, its findings, its language and the record of the last packet; gives
 * numbers, curves, findings, changes and the record for the next one.
 */
import type { Finding } from '../../findings/finding.ts';
import { blocks } from '../../findings/finding.ts';
import type { Language } from '../../language/index.ts';
import { cautionSource, cautionsFor } from '../../pattern/cautions.ts';
import { contextOf } from '../../pattern/checks/context.ts';
import { pinNumbers } from '../../pattern/checks/pins.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { type EditionOrder, wordsOf } from '../../press/edition/order.ts';
import { comparePackets, type PacketChange } from './changes.ts';
import { type GradeCurve, gradeCurves } from './curves.ts';
import { type EditorEntry, gatherNumbers } from './numbers.ts';
import { type PacketRecord, recordOf } from './record.ts';

export interface EditorOrder {
  readonly checked: CheckedPattern;
  /** All findings: of the bundle, its numbers and its languages. */
  readonly findings: readonly Finding[];
  /** The language the pattern is written in. */
  readonly language: Language;
  /** The record of the packet before this one. */
  readonly since?: PacketRecord;
}

export interface EditorPacket {
  readonly order: EditorOrder;
  /** The pattern in its own language, as the page would say it. */
  readonly edition: EditionOrder;
  readonly entries: readonly EditorEntry[];
  readonly tally: { readonly total: number; readonly held: number; readonly free: number };
  readonly curves: readonly GradeCurve[];
  /** Findings nobody has accepted, those that block first. */
  readonly open: readonly Finding[];
  readonly accepted: readonly Finding[];
  readonly cautions: readonly { readonly text: string; readonly source: string }[];
  /** Undefined where there is no packet before this one. */
  readonly changes: readonly PacketChange[] | undefined;
  readonly record: PacketRecord;
}

export function gatherPacket(order: EditorOrder): EditorPacket {
  const { checked, findings, language, since } = order;
  const { pattern, pieces } = checked;
  const context = contextOf(pattern, pieces);
  const pins = pinNumbers(pattern);
  const entries = gatherNumbers(context, pins);
  const record = recordOf(pattern.bundle, entries, findings);
  const edition: EditionOrder = { checked, language, kind: 'standard', pictures: new Map() };
  const words = wordsOf(edition);
  return {
    order,
    edition,
    entries,
    tally: { total: pins.total, held: pins.pinned, free: pins.free.length },
    curves: gradeCurves(context, language.settings.units.first),
    open: findings
      .filter(({ accepted }) => accepted === undefined)
      .sort((a, b) => Number(blocks(b)) - Number(blocks(a))),
    accepted: findings.filter(({ accepted }) => accepted !== undefined),
    cautions: cautionsFor(pattern.bundle.data).map((id) => ({
      text: words(`caution.${id}`),
      source: cautionSource(id),
    })),
    changes: since && comparePackets(since, record),
    record,
  };
}

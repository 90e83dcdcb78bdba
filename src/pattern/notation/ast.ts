/**
 * What written instructions mean, as a closed union. A line of notation is a list of sentences with
 * an optional row label before and a stated count after; a row's sentence is a list of actions that
 * consume the stitches on the left needle one by one. British and US forms give the same tree;
 * no language's words are kept. Every node carries the span of its own text.
 */
import type { Span } from '../../base/span.ts';
import type { Sized } from '../bundle/size-list.ts';

/** Canonical name of an entry of the stitch catalogue, e.g. `k`, `k2tog`, `k tbl`, `2/2 LC`. */
export type StitchName = string;

/**
 * What a stretch is worked in: a stitch (`k`), a stitch pattern of the bundle by its id, a known
 * fabric (`stockinette`, `garter`, `rib`, `as-they-face`, … see `text/fabric.ts`), `chart ` and a chart's
 * id, or the designer's own words.
 */
export type Fabric = string;

/** A fabric length as written: `14 in / 35.5 cm`. At least one of the two is given. */
export interface Length {
  readonly inches?: Sized;
  readonly centimetres?: Sized;
  readonly span: Span;
}

// ---------------------------------------------------------------- actions: inside a row

/** Where "to …" stops. */
export type Goal =
  | { readonly kind: 'end'; readonly span: Span } //                     to end
  | { readonly kind: 'last'; readonly count: Sized; readonly span: Span } //    to last 4 sts
  | {
      readonly kind: 'marker'; //                                         to [2 sts before] [name] marker
      readonly before: Sized; // 0 where none are left
      readonly marker?: string;
      readonly span: Span;
    }
  | { readonly kind: 'gap'; readonly before: Sized; readonly span: Span } // to 1 st before gap / wrapped st
  | {
      readonly kind: 'past'; //                                       to 5 sts past gap | past m
      readonly count: Sized;
      readonly of: 'gap' | 'marker';
      readonly marker?: string;
      readonly span: Span;
    }
  | { readonly kind: 'remaining'; readonly count: Sized; readonly span: Span }; // until 24 sts remain unworked

/** Edges that shaping may name. `each end` counts twice. */
export type ShapingPlace =
  | 'each end'
  | 'beginning'
  | 'end'
  | 'neck edge'
  | 'armhole edge'
  | 'front edge'
  | 'side edge'
  | 'each marker' //       one at each marker of the round
  | 'each side of marker'; // two at each marker of the round

export type Action =
  /** `k5`, `k2tog`, `yo twice`, `2/2 LC`, `sl1 wyif`, `work 18` (stitch `work`: as established). */
  | {
      readonly kind: 'work';
      readonly stitch: StitchName;
      readonly times: Sized;
      /** `work 10 sts in rib`: see `Fabric`. Only with the stitch `work`. */
      readonly fabric?: Fabric;
      readonly span: Span;
    }
  /** `k to end`, `p to last 4 sts`, `work to 2 sts before m`. */
  | {
      readonly kind: 'workTo';
      readonly stitch: StitchName;
      readonly goal: Goal;
      readonly fabric?: Fabric;
      readonly span: Span;
    }
  /** `[k2, p2] 4 times`, nested as deep as need be. */
  | {
      readonly kind: 'group';
      readonly actions: readonly Action[];
      readonly times: Sized;
      readonly span: Span;
    }
  /** `*k8, k2tog; rep from * to end`. `endingWith` replaces the end of the last repeat. */
  | {
      readonly kind: 'repeat';
      readonly actions: readonly Action[];
      readonly until: RepeatUntil;
      readonly endingWith?: readonly Action[];
      readonly span: Span;
    }
  /**
   * `(k1, yo, k1) in next st`, `… in each of next 6 sts`, `… in next 3 sts tog`: `together` stitches
   * of the left needle are worked as one each time; 1 where not given.
   */
  | {
      readonly kind: 'into';
      readonly actions: readonly Action[];
      readonly times: Sized;
      readonly together?: Sized;
      readonly span: Span;
    }
  /** `k1 (k2tog, k0)`: one thing for each size in turn; an empty list works nothing. */
  | {
      readonly kind: 'bySize';
      readonly alternatives: readonly (readonly Action[])[];
      readonly span: Span;
    }
  | {
      readonly kind: 'marker';
      readonly act: 'place' | 'slip' | 'remove';
      readonly name?: string;
      readonly span: Span;
    }
  /**
   * `bind off 8 sts`. The last bound-off stitch leaves one on the right needle. `lastStitch` says
   * who counts it: `next` (default, US habit) - the following `k5` are five further stitches and
   * the one on the needle is counted in them; `apart` - "1 st on right needle" is written out and
   * following counts do not include it.
   */
  | {
      readonly kind: 'bindOff';
      readonly count: Sized | 'all';
      readonly manner: 'plain' | 'in pattern' | 'knitwise' | 'purlwise';
      readonly lastStitch: 'in next' | 'apart';
      readonly method?: string; // loosely
      readonly span: Span;
    }
  | {
      readonly kind: 'castOn';
      readonly count: Sized;
      readonly method?: string;
      readonly span: Span;
    }
  /** `pick up and k 13 sts along edge`. */
  | {
      readonly kind: 'pickUp';
      readonly count: Sized;
      readonly stitch: StitchName;
      readonly from?: string; // an edge, as named in the bundle
      /** `3 sts for every 4 rows`. */
      readonly rate?: { readonly stitches: Sized; readonly rows: Sized };
      readonly span: Span;
    }
  /** `place next 40 sts on holder`. */
  | {
      readonly kind: 'hold';
      readonly count: Sized | 'all';
      readonly holder: string;
      readonly span: Span;
    }
  /** `return 40 held sts to needle` / `work across 40 held sts`: they stand on the left needle next. */
  | {
      readonly kind: 'resume';
      readonly holder: string;
      readonly count?: Sized;
      readonly span: Span;
    }
  /** `turn`, `w&t`, `turn leaving 9 sts unworked`, German short rows. */
  | {
      readonly kind: 'turn';
      readonly wrap: 'none' | 'wrap' | 'german';
      readonly leaving?: Sized;
      readonly span: Span;
    }
  /** `slide sts to other end of needle`: the next row faces the same side (i-cord). */
  | { readonly kind: 'slide'; readonly span: Span }
  /** `work Chart A [3 times | to m]`, `work row 3 of Chart A over next 24 sts`. */
  | {
      readonly kind: 'chart';
      readonly chart: string;
      readonly row?: Sized;
      readonly over?: Sized;
      readonly times?: Sized;
      readonly goal?: Goal;
      readonly span: Span;
    }
  /** `[knit,] dec 12 sts evenly [over next 60 sts]`: `fabric` is what the rest is worked in. */
  | {
      readonly kind: 'evenly';
      readonly act: 'increase' | 'decrease';
      readonly count: Sized;
      readonly over?: Sized;
      readonly fabric?: Fabric;
      readonly span: Span;
    }
  /** `[work in rib,] dec 1 st each end`, as what a row does; rates are a sentence (`shape`). */
  | {
      readonly kind: 'change';
      readonly act: 'increase' | 'decrease';
      readonly count: Sized;
      readonly place: ShapingPlace;
      readonly marker?: string; // each raglan marker
      readonly fabric?: Fabric;
      readonly span: Span;
    }
  /** `with CC`, `change to MC`; `join second ball of yarn` in mid-row has the act `join`. */
  | {
      readonly kind: 'yarn';
      readonly yarn: string;
      readonly act?: 'join' | 'break';
      readonly span: Span;
    };

export type RepeatUntil =
  | { readonly kind: 'goal'; readonly goal: Goal } //       rep from * to end / to last 3 sts / to m
  | { readonly kind: 'more'; readonly times: Sized } //     rep from * 5 more times: six in all
  | { readonly kind: 'total'; readonly times: Sized }; //   work from * 5 times in all

// ---------------------------------------------------------------- labels and counts

export type Side = 'RS' | 'WS';

export interface RowRange {
  readonly from: Sized;
  /** Same as `from` for a single row. */
  readonly to: Sized;
}

/** `Row 1 (RS):`, `Rnds 1–5:`, `Row 2 and all WS rows:`, `Next row:`, or a free name (`Instep:`). */
export type RowLabel =
  | {
      readonly kind: 'numbered';
      readonly unit: 'row' | 'round';
      readonly ranges: readonly RowRange[];
      readonly side?: Side;
      /** `and all WS rows` / `and all even rounds`: holds until another row is given for them. */
      readonly andAll?: 'WS' | 'RS' | 'even' | 'odd' | 'following';
      /** `Row 10 (dec):`, kept for the reader. */
      readonly role?: RowRole;
      readonly span: Span;
    }
  | {
      readonly kind: 'next';
      readonly unit: 'row' | 'round';
      /** `Next 3 rows:`; 1 where none is given. */
      readonly count: Sized;
      readonly side?: Side;
      /** `Dec row`, `Inc rnd`, `Set-up row`, `Short row`: kept for the reader. */
      readonly role?: RowRole;
      readonly number?: Sized; // `Short row 3`
      readonly span: Span;
    }
  | { readonly kind: 'named'; readonly name: string; readonly span: Span };

export type RowRole =
  | 'set-up' | 'increase' | 'decrease' | 'short' | 'joining' | 'eyelet' | 'dividing' | 'buttonhole' | 'ridge'; // prettier-ignore

/** `(49 sts)`, `84 (92, 100) sts rem`, also for parts: `14 sts each shoulder`. */
export interface Stated {
  readonly count: Sized;
  /** `– 4 sts decreased` / `8 sts increased` states the change instead of the count. */
  readonly change?: 'increased' | 'decreased';
  /** The count as well as the change: `8 sts increased; 96 sts`. */
  readonly total?: Sized;
  /** What the count is of, where it is not the needle: `each shoulder`, `each side`. */
  readonly part?: string;
  readonly span: Span;
}

// ---------------------------------------------------------------- sentences

export type Extent =
  /** `until piece measures 14 in from cast-on edge`, `for 3 in`. */
  (
    | {
        readonly kind: 'length';
        readonly length: Length;
        readonly from: 'cast-on' | 'here' | 'underarm' | 'divide' | 'marker' | 'pick-up';
      }
    | { readonly kind: 'rows'; readonly count: Sized } //           for 12 rows
    | { readonly kind: 'count'; readonly count: Sized } //          until 24 sts remain
    | { readonly kind: 'more'; readonly times: Sized } //           6 more times
    | { readonly kind: 'total'; readonly times: Sized } //          6 times in all
    | { readonly kind: 'once' }
  ) & {
    /** `ending with a WS row`: stated, so that it can be checked. */
    readonly ending?: Side;
    /** `ending with row 8`: the row of the stitch pattern last worked. */
    readonly endingRow?: Sized;
  };

/**
 * One leg of a schedule: `every 4th row 5 times`, `every RS row twice`, `every 1 in 5 times`. `times`
 * is absent where the schedule's `until` says when to stop.
 */
export type Rate =
  | {
      readonly kind: 'rows';
      readonly every: Sized;
      /** `every RS row`: `every` is 2 and the shaping falls on this side. */
      readonly side?: Side;
      readonly times?: Sized;
    }
  | { readonly kind: 'length'; readonly every: Length; readonly times?: Sized };

/** Something that happens again and again over rows. */
export interface Schedule {
  readonly act: 'increase' | 'decrease' | 'bindOff' | 'repeat';
  /** Stitches at each place. 0 for `repeat`. */
  readonly count: Sized;
  readonly place: ShapingPlace;
  readonly marker?: string; // each raglan marker
  /** `Work in rib, dec 1 st each end …`. */
  readonly fabric?: Fabric;
  /** Act `repeat`: `rep Dec row every 4th row …`; absent: the row just worked. */
  readonly row?: RowRole;
  /**
   * `on next row, then every 4th row 5 times`: once on the next row and 5 times more, six in all. Else
   * the first falls after a full interval, on the 4th row from here, and there are five in all.
   * `this and every 3rd row 14 times more` is the same thing: fifteen.
   */
  readonly startsNow: boolean;
  readonly rates: readonly Rate[];
  /** Set to `round` where the words say rounds. */
  readonly unit?: 'row' | 'round';
  /** `until 24 sts remain`, where the last rate has no times. */
  readonly until?: Extent;
  readonly span: Span;
}

export type Sentence =
  /** What one row or round does: `k2, *p1, k1; rep from * to end.` */
  | {
      readonly kind: 'actions';
      readonly actions: readonly Action[];
      /** `With RS facing, …`. */
      readonly facing?: Side;
      readonly span: Span;
    }
  /** `Cast on 96 (104, 112) sts [using the long-tail method] [and join in the round].` */
  | {
      readonly kind: 'castOn';
      readonly count: Sized;
      readonly method?: string;
      readonly yarn?: string;
      readonly needle?: string;
      readonly span: Span;
    }
  /** `Join to work in the round.` / `Work back and forth in rows.` */
  | {
      readonly kind: 'join';
      readonly form: 'round' | 'flat';
      readonly placeMarker: boolean;
      readonly span: Span;
    }
  /** `Rep Rows 1–4 six more times`, `Rep last 2 rows until piece measures …`. */
  | {
      readonly kind: 'repeatRows';
      readonly unit: 'row' | 'round';
      readonly rows:
        | { readonly ranges: readonly RowRange[] }
        | { readonly last: Sized }
        | { readonly role: RowRole }; //            rep Dec row
      /** `Work Rows 1–24 of Chart A`: a stitch pattern or chart, see `Fabric`. */
      readonly of?: Fabric;
      /** `as Row 4, but k9 instead of k10`: every `old` is worked as `now`. */
      readonly instead?: readonly {
        readonly old: readonly Action[];
        readonly now: readonly Action[];
      }[];
      /** `having 1 st less between decs`: the plain stretch between shapings changes each time. */
      readonly changing?: { readonly by: Sized; readonly way: 'fewer' | 'more' };
      readonly extent: Extent;
      readonly span: Span;
    }
  /**
   * `Work even in seed st for 12 rows`, `Knit 3 rows`, `Work in stockinette until …`. Under a label
   * (`Rows 1–8: Work even in rib`) the extent is `once`: it is what each of those rows does.
   */
  | {
      readonly kind: 'workEven';
      readonly unit: 'row' | 'round';
      /** A stitch (`k`), a stitch pattern of the bundle, a chart, or undefined: as established. */
      readonly fabric?: Fabric;
      /** `beg with a k row`, `beg with a WS row`, `beg with row 5`. */
      readonly beginning?:
        { readonly stitch: StitchName } | { readonly side: Side } | { readonly row: Sized };
      readonly extent: Extent;
      readonly span: Span;
    }
  /** `Dec 1 st each end every 4th row 5 times, then every 6th row 3 times.` */
  | { readonly kind: 'shape'; readonly schedule: Schedule; readonly span: Span }
  /**
   * `AT THE SAME TIME, …`: these sentences, one after another, run together with the sentence before
   * this one. `start`: `when armhole measures 4 in`, `after 10 rows`; absent: at once.
   */
  | {
      readonly kind: 'atTheSameTime';
      readonly start?: Extent;
      readonly sentences: readonly Sentence[];
      readonly span: Span;
    }
  /** `[Work 5 rows even, rep Inc row] 6 times.` One after another, again and again. */
  | {
      readonly kind: 'steps';
      readonly sentences: readonly Sentence[];
      readonly extent: Extent;
      readonly span: Span;
    }
  /** `Bind off 4 (5, 6) sts at beg of next 2 rows.` / `Cast on 2 sts at end of next 14 rows.` */
  | {
      readonly kind: 'edgeRows';
      readonly act: 'bindOff' | 'castOn';
      readonly count: Sized;
      readonly at: 'beginning' | 'end';
      readonly rows: Sized;
      readonly span: Span;
    }
  /** `Place rem 20 sts on holder.` outside a row. */
  | {
      readonly kind: 'hold';
      readonly count: Sized | 'all';
      readonly holder: string;
      readonly span: Span;
    }
  /** `Return held sts of left front to needle.` Several holders join in the order named. */
  | {
      readonly kind: 'resume';
      readonly holders: readonly string[];
      readonly count?: Sized;
      readonly span: Span;
    }
  /** `Change to larger needles.` */
  | { readonly kind: 'needle'; readonly needle: string; readonly span: Span }
  | {
      readonly kind: 'yarn';
      readonly act: 'join' | 'break' | 'change';
      readonly yarn?: string;
      readonly facing?: Side;
      readonly span: Span;
    }
  /** `Break yarn, draw through rem sts and fasten off.` Ends the stitches on the needle. */
  | { readonly kind: 'drawThrough'; readonly count?: Sized; readonly span: Span }
  /** `Bind off all sts [in pattern | loosely].` as a line of its own */
  | {
      readonly kind: 'bindOffAll';
      readonly manner: 'plain' | 'in pattern' | 'knitwise' | 'purlwise';
      readonly method?: string; // loosely
      readonly span: Span;
    }
  /** `Join shoulders with three-needle bind-off` / `Graft …`: the stitches meet and end. */
  | {
      readonly kind: 'joinStitches';
      readonly method: 'three-needle bind-off' | 'graft';
      /** Two holders or `needle`: equal counts are demanded. */
      readonly parts: readonly string[];
      readonly count?: Sized;
      readonly span: Span;
    }
  /** `Place marker after 40 sts` as a set-up outside a row; `Mark this row.` */
  | {
      readonly kind: 'mark';
      readonly what: 'row' | 'here';
      readonly name?: string;
      readonly span: Span;
    }
  /** `See "finishing"`: a prose key of the bundle shown at this place. */
  | { readonly kind: 'prose'; readonly key: string; readonly span: Span };

export interface Line {
  /** `Sizes L and XL only:`; undefined means every size. */
  readonly onlySizes?: { readonly sizes: readonly string[]; readonly span: Span };
  readonly label?: RowLabel;
  readonly sentences: readonly Sentence[];
  readonly stated?: Stated;
  /** The text this line was read from. */
  readonly text: string;
  readonly span: Span;
}

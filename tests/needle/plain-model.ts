/**
 * A second, plain model of a needle, written without looking at the first: one list of stitches and
 * markers, a place in it, and loops. No runs, no sums, no division. Slow on purpose.
 */
export type Op =
  | { readonly op: 'stitch'; readonly name: string; readonly takes: number; readonly makes: number; readonly times: number }
  | { readonly op: 'group'; readonly ops: readonly Op[]; readonly times: number }
  | { readonly op: 'repeat'; readonly ops: readonly Op[]; readonly leaving: number }
  | { readonly op: 'repeatTimes'; readonly ops: readonly Op[]; readonly more: number }
  | { readonly op: 'to'; readonly leaving: number }
  | { readonly op: 'toMarker'; readonly before: number }
  | { readonly op: 'into'; readonly makes: number; readonly times: number }
  | { readonly op: 'bindOff'; readonly times: number }
  | { readonly op: 'castOn'; readonly times: number }
  | { readonly op: 'place' }
  | { readonly op: 'slip' }; // prettier-ignore

export interface Row {
  readonly ops: readonly Op[];
  /** Ends with a turn, with stitches left unworked. */
  readonly turn: boolean;
}

type Thing = 'stitch' | 'marker';

/** The needle as one list in the order of working; `place` is how far it is worked. */
export class PlainNeedle {
  list: Thing[];
  place = 0;

  constructor(count: number) {
    this.list = Array.from({ length: count }, (): Thing => 'stitch');
  }

  get count(): number {
    return this.list.filter((thing) => thing === 'stitch').length;
  }

  left(): number {
    return this.list.slice(this.place).filter((thing) => thing === 'stitch').length;
  }

  /** Works a row; false where it cannot be worked to its end. */
  work(row: Row): boolean {
    if (!row.ops.every((op) => this.#do(op))) return false;
    if (row.turn) {
      this.list.reverse();
      this.place = this.list.length - this.place;
      return true;
    }
    this.#passMarkers();
    if (this.place < this.list.length) return false;
    this.list.reverse();
    this.place = 0;
    return true;
  }

  #passMarkers(): void {
    while (this.list[this.place] === 'marker') this.place += 1;
  }

  #one(takes: number, makes: number): boolean {
    if (takes > 0) this.#passMarkers();
    if (this.left() < takes) return false;
    const behind: Thing[] = [];
    for (let need = takes; need > 0;) {
      const [thing] = this.list.splice(this.place, 1);
      if (thing === 'marker') behind.push('marker');
      else need -= 1;
    }
    const made = Array.from({ length: makes }, (): Thing => 'stitch');
    this.list.splice(this.place, 0, ...made, ...behind);
    this.place += makes + behind.length;
    return true;
  }

  #times(times: number, what: () => boolean): boolean {
    for (let turn = 0; turn < times; turn += 1) if (!what()) return false;
    return true;
  }

  #all(ops: readonly Op[]): boolean {
    return ops.every((op) => this.#do(op));
  }

  #do(op: Op): boolean {
    switch (op.op) {
      case 'stitch':
        return this.#times(op.times, () => this.#one(op.takes, op.makes));
      case 'group':
        return this.#times(op.times, () => this.#all(op.ops));
      case 'repeatTimes':
        return this.#times(op.more + 1, () => this.#all(op.ops));
      case 'repeat': {
        if (this.left() < op.leaving) return false;
        while (this.left() > op.leaving) {
          const before = this.left();
          if (!this.#all(op.ops)) return false;
          if (this.left() >= before || this.left() < op.leaving) return false;
        }
        return true;
      }
      case 'to':
        if (this.left() < op.leaving) return false;
        while (this.left() > op.leaving) this.#one(1, 1);
        return true;
      case 'toMarker': {
        const ahead = this.list.indexOf('marker', this.place);
        if (ahead < 0 || ahead - this.place < op.before) return false;
        return this.#times(ahead - this.place - op.before, () => this.#one(1, 1));
      }
      case 'into':
        return this.#times(op.times, () => this.#one(1, op.makes));
      case 'bindOff':
        return this.#times(op.times, () => this.#one(1, 0));
      case 'castOn':
        return this.#times(op.times, () => this.#one(0, 1));
      case 'place':
        this.list.splice(this.place, 0, 'marker');
        this.place += 1;
        return true;
      case 'slip':
        if (this.list[this.place] !== 'marker') return false;
        this.place += 1;
        return true;
    }
  }
}

// ---------------------------------------------------------------- as written

const sts = (count: number): string => `${count} ${count === 1 ? 'st' : 'sts'}`;

export function writtenOp(op: Op): string {
  switch (op.op) {
    case 'stitch':
      return Array.from({ length: /^[kp]$/.test(op.name) ? 1 : op.times }, () =>
        /^[kp]$/.test(op.name) ? `${op.name}${op.times}` : op.name,
      ).join(', ');
    case 'group':
      return `[${writtenOps(op.ops)}] ${op.times} times`;
    case 'repeatTimes':
      return `*${writtenOps(op.ops)}; rep from * ${op.more} more times`;
    case 'repeat':
      return `*${writtenOps(op.ops)}; rep from * to ${op.leaving === 0 ? 'end' : `last ${sts(op.leaving)}`}`;
    case 'to':
      return `k to ${op.leaving === 0 ? 'end' : `last ${sts(op.leaving)}`}`;
    case 'toMarker':
      return op.before === 0 ? 'k to m' : `k to ${sts(op.before)} before m`;
    case 'into':
      return `(${Array.from({ length: op.makes }, (_, at) => (at % 2 === 0 ? 'k1' : 'p1')).join(', ')}) in each of next ${sts(op.times)}`;
    case 'bindOff':
      return `bind off ${sts(op.times)}`;
    case 'castOn':
      return `cast on ${sts(op.times)}`;
    case 'place':
      return 'pm';
    case 'slip':
      return 'sm';
  }
}

export const writtenOps = (ops: readonly Op[]): string => ops.map(writtenOp).join(', ');

export const writtenRow = ({ ops, turn }: Row): string =>
  `Next row: ${writtenOps(ops)}${turn ? ', turn' : ''}.`;

/**
 * Published body tables and ease bands, and checks that a grade is sensible: that measurements go the
 * right way from size to size, without a jump, and stand in a reasonable relation to the body. Takes
 * numbers by size, gives remarks as data. A designer's own table is as good as a published one.
 */
import bodyTable from './tables/body.json' with { type: 'json' };
import easeTable from './tables/ease.json' with { type: 'json' };

export type BodyGroup = keyof typeof bodyTable.groups;

export interface BodyValue {
  readonly fromInches: number;
  readonly toInches: number;
  /** How sure the published value is: `confirmed`, `upper value confirmed`, `from memory`. */
  readonly status: string;
}

export const BODY_SOURCE = bodyTable.source;

type Row = Readonly<Record<string, readonly (number | string)[]>>;

/** One measure of the published table, or undefined where the table has none. */
export function bodyValue(group: BodyGroup, size: string, part: string): BodyValue | undefined {
  const sizes = bodyTable.groups[group] as unknown as Readonly<Record<string, Row>>;
  const value = sizes[size]?.[part];
  if (!value) return undefined;
  const [from, to, status] = value;
  return { fromInches: Number(from), toInches: Number(to), status: String(status) };
}

/** The sizes of a group in table order. */
export const bodySizes = (group: BodyGroup): readonly string[] =>
  Object.keys(bodyTable.groups[group]);

/** The current name of the fit that an ease in inches belongs to. */
export function fitOfEase(easeInches: number): string {
  const current = easeTable.bands.filter((band) => band.edition === 'current');
  if (easeInches < 0) return 'very close fitting';
  const fitting = current.find(
    (band) =>
      band.min !== null && easeInches >= band.min && (band.max === null || easeInches <= band.max),
  );
  // Between 0 and 2 in the bands leave a gap; what is closer than classic is close fitting.
  return fitting?.category ?? 'close fitting';
}

// ---------------------------------------------------------------- is the grade sensible?

export type GradeRemark =
  | { readonly kind: 'falls'; readonly at: number } //  smaller than the size before
  | { readonly kind: 'jumps'; readonly at: number; readonly step: number; readonly usual: number };

/**
 * A measurement that goes down as size goes up, or a step that is more than twice its neighbours, is
 * almost always a slip (common practice). `at` is the index of the larger size.
 */
export function remarkOnGrade(values: readonly number[]): readonly GradeRemark[] {
  const steps = values.slice(1).map((value, index) => value - (values[index] ?? value));
  return steps.flatMap((step, index): GradeRemark[] => {
    if (step < 0) return [{ kind: 'falls', at: index + 1 }];
    const neighbours = [steps[index - 1], steps[index + 1]].filter((each) => each !== undefined);
    const usual = Math.max(...neighbours.map(Math.abs), 0);
    const jumps = neighbours.length === 2 && usual > 0 && step > 2 * usual;
    return jumps ? [{ kind: 'jumps', at: index + 1, step, usual }] : [];
  });
}

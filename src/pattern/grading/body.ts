/**
 * Published body tables and ease bands, and checks that a grade is sensible: that measurements go the
 * right way from size to size, without a jump, and stand in a reasonable relation to the body. Takes
 * numbers by size, gives remarks as data. A designer's own table is as good as a published one.
 */
import bodyTable from './tables/body.json' with { type: 'json' };
import easeTable from './tables/ease.json' with { type: 'json' };
import headsAndFeet from './tables/heads-and-feet.json' with { type: 'json' };

/** Groups of the published tables; heads and feet are also told of adults together. */
export type BodyGroup = keyof typeof bodyTable.groups | 'adult';

export interface BodyValue {
  readonly fromInches: number;
  readonly toInches: number;
  /** How sure the published value is: `confirmed`, `upper value confirmed`, `from memory`. */
  readonly status: string;
}

export const BODY_SOURCE = bodyTable.source;

type Cells = readonly (number | string)[];
type Sizes<Of> = Readonly<Record<string, Readonly<Record<string, Of>> | undefined>>;

const BODIES = bodyTable.groups as unknown as Sizes<Readonly<Record<string, Cells>>>;
const HEADS_AND_FEET: Readonly<
  Record<string, { readonly source: string; readonly groups: unknown } | undefined>
> = headsAndFeet.parts;

/** The table a part of the body is found in. */
export const bodySource = (part: string): string => HEADS_AND_FEET[part]?.source ?? BODY_SOURCE;

/**
 * One measure of the published tables, or undefined where they have none. Heads and feet are published
 * by age or shoe size: where a size of the garment is none of these, the range of its whole group holds.
 */
export function bodyValue(group: BodyGroup, size: string, part: string): BodyValue | undefined {
  const ranges = HEADS_AND_FEET[part]?.groups as Sizes<Cells> | undefined;
  const value =
    BODIES[group]?.[size]?.[part] ?? ranges?.[group]?.[size] ?? ranges?.[group]?.['any'];
  if (!value) return undefined;
  const [from, to, status] = value;
  return { fromInches: Number(from), toInches: Number(to), status: String(status) };
}

/** The sizes of a group in table order; none where its table knows no garment sizes. */
export const bodySizes = (group: BodyGroup): readonly string[] => Object.keys(BODIES[group] ?? {});

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

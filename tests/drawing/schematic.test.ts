/**
 * Schematics: drawn to scale from the measurements, every letter once, every measured point where its
 * measurement says.
 */
import { describe, expect, test } from 'vitest';
import type { Drawing, PathStep } from '../../src/press/drawing/drawing.ts';
import {
  commonScale, drawSchematic, OUTLINE_ROLES, roleProblems, toSvg, type OutlineKind, type SchematicInput,
} from '../../src/press/drawing/index.ts'; // prettier-ignore
import { outlineOf } from '../../src/press/drawing/schematic/schematic.ts';

const ROOM = { maxWidthPoints: 250, maxHeightPoints: 250 };

/** Plausible lengths in inches for any role. */
const LENGTHS: Readonly<Record<string, number>> = {
  width: 20, length: 24, hemDepth: 2.5, bottom: 20, top: 14, hem: 18, circumference: 40, sideLength: 15, armhole: 9,
  crossBack: 15.5, neck: 7.5, neckDepth: 3.5, backNeckDepth: 1, shoulder: 4, shoulderDrop: 1, cuff: 8.5, upperArm: 14,
  cuffDepth: 2.5, capDepth: 5.5, capTop: 3.5, height: 9, brim: 36, brimDepth: 2, crownDepth: 2.5, hand: 8, toThumb: 5,
  thumb: 3, thumbLength: 2.25, tipDepth: 1.5, foot: 8, footLength: 9.5, legLength: 8, leg: 8.5, toeDepth: 2, depth: 9,
  neckband: 1,
}; // prettier-ignore

const KINDS = Object.keys(OUTLINE_ROLES) as OutlineKind[];
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

function inputOf(outline: OutlineKind, which: 'required' | 'all'): SchematicInput {
  // A raglan takes the place of the armhole, the cross back and the shoulders; it has its own test.
  const roles = OUTLINE_ROLES[outline].filter(
    ({ role, required }) => required || (which === 'all' && role !== 'raglan'),
  );
  return {
    outline,
    lengths: Object.fromEntries(roles.map(({ role }) => [role, LENGTHS[role]])),
    letters: Object.fromEntries(roles.map(({ role }, index) => [role, LETTERS[index] ?? '?'])),
  };
}

const pointsOf = (steps: readonly PathStep[]) =>
  steps.flatMap((step): [number, number][] =>
    step[0] === 'Z' ? [] : step[0] === 'C' ? [[step[5], step[6]]] : [[step[1], step[2]]],
  );

const lettersOf = (drawing: Drawing) =>
  drawing.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : [])).toSorted();

describe.each(KINDS)('%s', (kind) => {
  test.each(['required', 'all'] as const)(
    'with the %s roles shows every letter once, inside its frame',
    (which) => {
      const input = inputOf(kind, which);
      const drawing = drawSchematic(input, ROOM);
      expect(lettersOf(drawing)).toEqual(Object.values(input.letters).toSorted());
      expect(drawing.widthPoints).toBeLessThanOrEqual(ROOM.maxWidthPoints + 0.01);
      expect(drawing.heightPoints).toBeLessThanOrEqual(ROOM.maxHeightPoints + 0.01);
      for (const shape of drawing.shapes) {
        const points =
          shape.kind === 'path' ? pointsOf(shape.steps) : [[shape.x, shape.y] as const];
        for (const [x, y] of points) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(drawing.widthPoints);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(drawing.heightPoints);
        }
      }
    },
  );

  test('every dimension is as long as its measurement, half of it where it goes round', () => {
    const { lengths } = inputOf(kind, 'all');
    const directions = new Map(OUTLINE_ROLES[kind].map(({ role, direction }) => [role, direction]));
    for (const { role, from, to, side } of outlineOf({ outline: kind, lengths }).dimensions) {
      const upright =
        side === 'left' || side === 'right' || (side === 'inside' && from[0] === to[0]);
      const drawn = upright ? Math.abs(to[1] - from[1]) : Math.abs(to[0] - from[0]);
      const stated = lengths[role] ?? NaN;
      expect(drawn, role).toBeCloseTo(directions.get(role) === 'around' ? stated / 2 : stated, 6);
    }
  });

  test('is drawn whatever the numbers say', () => {
    for (const value of [0.01, 1, 400]) {
      const input = inputOf(kind, 'all');
      const lengths = Object.fromEntries(Object.keys(input.lengths).map((role) => [role, value]));
      const drawing = drawSchematic({ ...input, lengths }, ROOM);
      expect(Number.isFinite(drawing.widthPoints * drawing.heightPoints)).toBe(true);
      expect(JSON.stringify(drawing.shapes)).not.toContain('null');
    }
  });
});

test.each([
  ['drop-shoulder-front', { outline: 'body', lengths: { width: 20, length: 24, hemDepth: 2.5, sideLength: 15.5, armhole: 8.5, neck: 8, neckDepth: 3, shoulder: 6 }, letters: { width: 'A', length: 'B', sideLength: 'C', armhole: 'D', neck: 'E', neckDepth: 'F', shoulder: 'G', hemDepth: 'H' } }],
  ['hat', { outline: 'hat', lengths: { circumference: 20, height: 9, brimDepth: 2, crownDepth: 2.5 }, letters: { circumference: 'A', height: 'B', brimDepth: 'C', crownDepth: 'D' } }],
] as const)('%s as SVG', async (name, input) => {
  const svg = toSvg(drawSchematic(input, ROOM), { title: name, description: 'Schematic' });
  await expect(svg).toMatchFileSnapshot(`../golden/drawing/${name}.svg`);
}); // prettier-ignore

test('a raglan slants from the underarm to the neck', () => {
  const lengths = { circumference: 40, length: 24, sideLength: 15, raglan: 9, neck: 8 };
  const { steps, dimensions } = outlineOf({ outline: 'bodyRound', lengths });
  expect(pointsOf(steps)).toContainEqual([6, 0]);
  expect(pointsOf(steps)).toContainEqual([14, 0]);
  expect(dimensions.find(({ role }) => role === 'raglan')).toMatchObject({
    from: [6, 0],
    to: [0, 9],
  });
});

test('a body in the round of which nothing above the underarm is stated narrows to a yoke', () => {
  const lengths = { circumference: 40, length: 24, sideLength: 15 };
  const { steps } = outlineOf({ outline: 'bodyRound', lengths });
  expect(pointsOf(steps)).toContainEqual([0, 9]);
  expect(pointsOf(steps)).not.toContainEqual([0, 0]);
});

test('one front of two has its neck at the front edge only', () => {
  const lengths = { width: 10, length: 24, sideLength: 15, armhole: 9, shoulder: 4, neckDepth: 7 };
  const { steps, dimensions } = outlineOf({ outline: 'body', lengths });
  expect(pointsOf(steps)).toContainEqual([10, 7]);
  expect(
    Math.min(
      ...pointsOf(steps)
        .filter(([x]) => x === 10)
        .map(([, y]) => y),
    ),
  ).toBe(7);
  expect(dimensions.map(({ role }) => role).toSorted()).toEqual(Object.keys(lengths).toSorted());
});

test('shoulders and neck that make the whole width but for rounding leave straight sides', () => {
  const lengths = { width: 19.4, length: 22.5, armhole: 8, neck: 7.5, shoulder: 5.75 };
  const { steps } = outlineOf({ outline: 'body', lengths });
  expect(new Set(pointsOf(steps).map(([x]) => x))).toContain(0);
  expect(pointsOf(steps)).toContainEqual([0, 0]);
});

test('pieces share one scale when asked to', () => {
  const [body, sleeve] = [inputOf('body', 'required'), inputOf('sleeve', 'required')];
  const pointsPerInch = commonScale([body, sleeve], ROOM);
  for (const input of [body, sleeve]) {
    const drawing = drawSchematic(input, { ...ROOM, pointsPerInch });
    expect(drawing.widthPoints).toBeLessThanOrEqual(ROOM.maxWidthPoints + 0.01);
  }
});

test('an outline from the rows takes the place of the one from measurements', () => {
  const input = inputOf('rectangle', 'required');
  const polygon = [[0, 0], [20, 0], [19, 24], [1, 24]] as const; // prettier-ignore
  const drawing = drawSchematic({ ...input, polygon }, { ...ROOM, pointsPerInch: 8 });
  const [edge] = drawing.shapes;
  if (edge?.kind !== 'path') throw new Error('the outline comes first');
  const xs = pointsOf(edge.steps).map(([x]) => x);
  expect(xs.map((x) => Math.round(x - Math.min(...xs)))).toEqual([0, 160, 152, 8]);
});

test('roles that an outline does not know, and required ones that are missing, are named', () => {
  const problems = roleProblems('sleeve', ['cuff', 'length', 'brim']);
  expect(problems.missing.map(({ role }) => role)).toEqual(['upperArm']);
  expect(problems.unknown).toEqual(['brim']);
});

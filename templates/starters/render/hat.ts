/**
 * Pictures of the Breakwater Hat: standing on a pale surface as if on a head, lying flat, and two
 * ropes close up. Each is the same fabric laid over another shape.
 */
import type { ChartRows } from './chart-source.ts';
import { edgeStrands, knitStrands, liningStrands, type Drape } from './fabric.ts';
import { AROUND, BRIM_ROWS, CHART_START, hatFabric, ROWS } from './hat-fabric.ts';
import { looseEnd, woundBall } from './ball.ts';
import { paintedBoards, paleRoom } from './grounds.ts';
import { clouds } from './noise.ts';
import type { Scene } from './picture.ts';
import { colourOf, type Strand, type Yarn } from './yarn.ts';

/** Inches: 20 in around, 8 rows to the inch in the brim, 8½ above it. */
const CIRCUMFERENCE = 20;
const BRIM_ROW = 1 / 8;
const BODY_ROW = 4 / 34;
const STITCH = CIRCUMFERENCE / AROUND;
const YARN_RADIUS = 0.0385;

const PORTRAIT = { widthPixels: 1800, heightPixels: 2250 };

const yarnOf = (chart: ChartRows, pixelsPerInch: number): Yarn => ({
  colour: colourOf(chart.swatch),
  radiusPixels: YARN_RADIUS * pixelsPerInch,
  plies: 4,
  relief: 0.8,
  heather: 0.14,
});

/** Length of fabric from the cast-on edge. */
const heightOf = (row: number): number =>
  Math.min(row, BRIM_ROWS) * BRIM_ROW + Math.max(0, row - BRIM_ROWS) * BODY_ROW;
const LENGTH = heightOf(ROWS);

interface Profile {
  readonly radius: number;
  readonly rise: number;
  /** Slope of the surface: 0 upright, a right angle at the top. */
  readonly slope: number;
}

/** The shape of the hat on a head, by length of fabric: upright, then a dome. */
function standingProfile(): (length: number) => Profile {
  const radius = CIRCUMFERENCE / (2 * Math.PI);
  const dome = 4.05;
  const upright = LENGTH - dome;
  const [domeWidth, domeRise] = [radius * 1.03, 2.25];
  const steps = 200;
  const walked = [0];
  for (let index = 1; index <= steps; index += 1) {
    const [a, b] = [((index - 1) / steps) * (Math.PI / 2), (index / steps) * (Math.PI / 2)];
    walked.push((walked[index - 1] ?? 0) + Math.hypot(domeWidth * (Math.cos(a) - Math.cos(b)), domeRise * (Math.sin(b) - Math.sin(a)))); // prettier-ignore
  }
  const whole = walked[steps] ?? 1;
  return (length) => {
    if (length < upright) {
      const share = length / upright;
      const grip = 0.035 * Math.exp(-((length / 1.7) ** 2));
      return { radius: radius * (1.03 - grip), rise: length, slope: 0.02 * (1 - share) };
    }
    const along = Math.min(1, (length - upright) / dome) * whole;
    let index = walked.findIndex((value) => value >= along);
    if (index < 1) index = index < 0 ? steps : 1;
    const [from, to] = [walked[index - 1] ?? 0, walked[index] ?? 1];
    const angle = ((index - 1 + (along - from) / (to - from || 1)) / steps) * (Math.PI / 2);
    const slope = Math.atan2(domeWidth * Math.sin(angle), domeRise * Math.cos(angle));
    return {
      radius: Math.max(0.06, domeWidth * Math.cos(angle)),
      rise: upright + domeRise * Math.sin(angle),
      slope,
    };
  };
}

/** Seen a little from above. */
const TILT = 0.24;

function standingDrape(pixelsPerInch: number, middleX: number, baseY: number): Drape {
  const profile = standingProfile();
  const [cos, sin] = [Math.cos(TILT), Math.sin(TILT)];
  return (x, row, z) => {
    const { radius, rise, slope } = profile(heightOf(row));
    const angle = ((x - AROUND / 2 - 2.5) / AROUND) * 2 * Math.PI;
    const lift = z * STITCH * 0.85;
    const hand = 1 + 0.011 * clouds(Math.sin(angle) * 2.2 + 4, rise / 2.6 + Math.cos(angle), 31, 2);
    const out = radius * hand + lift * Math.cos(slope);
    const up = rise + lift * Math.sin(slope);
    const [across, toward] = [out * Math.sin(angle), out * Math.cos(angle)];
    return [
      middleX + across * pixelsPerInch,
      baseY - (up * cos - toward * sin) * pixelsPerInch,
      (up * sin + toward * cos) * pixelsPerInch,
    ];
  };
}

const ballOf = (
  yarn: Yarn,
  x: number,
  baseY: number,
  z: number,
  radiusPixels: number,
): Strand[] => {
  const sunk = radiusPixels * 0.97;
  const centre = [x, baseY - sunk * Math.cos(TILT), z] as const;
  return woundBall({ centre, radiusPixels, yarn, seed: 41 });
};

export function hatStanding(chart: ChartRows): Scene {
  const pixelsPerInch = 186;
  const [middleX, baseY] = [990, 1600];
  const yarn = yarnOf(chart, pixelsPerInch);
  const drape = standingDrape(pixelsPerInch, middleX, baseY);
  const radius = (CIRCUMFERENCE / (2 * Math.PI)) * pixelsPerInch;
  const [ballX, ballY, ballRadius] = [385, 1900, 215];
  const front = radius * 1.4;
  const tail = looseEnd(
    [[ballX + 60, ballY - 8, front], [ballX + 190, ballY + 46, front], [ballX + 400, ballY + 70, front], [ballX + 590, ballY + 20, front], [ballX + 700, ballY + 52, front], [ballX + 620, ballY + 116, front], [ballX + 500, ballY + 80, front], [ballX + 640, ballY + 6, front], [ballX + 860, ballY + 60, front], [ballX + 1040, ballY + 30, front]],
    yarn, 77,
  ); // prettier-ignore
  return {
    ...PORTRAIT,
    strands: [
      ...liningStrands(() => [0, AROUND], ROWS, 1.3, { drape, yarnAt: () => yarn }),
      ...edgeStrands(0, AROUND, -0.3, 4 / 3, { drape, yarnAt: () => yarn, seed: 88 }),
      ...knitStrands(hatFabric(chart, 0, AROUND), { drape, yarnAt: () => yarn, seed: 4, unevenness: 1 }),
      ...ballOf(yarn, ballX, ballY, front, ballRadius),
      tail,
    ],
    ground: paleRoom(PORTRAIT, baseY - radius * 0.3, [
      { x: middleX, y: baseY, radiusX: radius, radiusY: radius * Math.sin(TILT) },
      { x: ballX, y: ballY - ballRadius * 0.12, radiusX: ballRadius * 0.8, radiusY: ballRadius * 0.24 },
    ]),
    floor: -radius * 1.5,
    shadow: { fallX: 0, fallY: 0, softness: 12 },
    exposure: 0.97,
    seed: 3,
    fibres: 9000,
  };
} // prettier-ignore

/** Fabric that makes the dome of the flat hat, and how high the dome lies: its rows are puckered. */
const FLAT_DOME = 4.6;
const FLAT_DOME_HEIGHT = 3.35;

/** Half the width of the flat hat and its height at a length of fabric: upright, then half an ellipse. */
function flatOutline(length: number): { readonly halfWidth: number; readonly height: number } {
  const full = CIRCUMFERENCE / 4;
  const upright = LENGTH - FLAT_DOME;
  const grip = 1 - 0.03 * Math.exp(-((length / 1.6) ** 2));
  if (length <= upright) return { halfWidth: full * grip, height: length };
  const share = Math.min(1, (length - upright) / FLAT_DOME);
  const angle = (share * Math.PI) / 2;
  const height = upright + FLAT_DOME_HEIGHT * (0.22 * share + 0.78 * Math.sin(angle));
  return { halfWidth: full * Math.max(0.015, Math.cos(angle) ** 0.92), height };
}

/** Radius of the fold at each side. */
const FOLD = 0.42;

/** Laid flat: the front half of the hat, folded away at both sides. */
function flatDrape(pixelsPerInch: number, middle: readonly [number, number], turn: number): Drape {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const half = CIRCUMFERENCE / 4;
  return (x, row, z) => {
    const length = heightOf(row);
    const { halfWidth, height: rise } = flatOutline(length);
    const share = halfWidth / half;
    const along = (x - AROUND / 4) * STITCH;
    const side = Math.sign(along);
    const past = Math.abs(along) - (half - (FOLD * Math.PI) / 2);
    const angle = Math.max(0, past) / FOLD;
    const lift = z * STITCH;
    const flat = past <= 0 ? Math.abs(along) : half - (FOLD * Math.PI) / 2 + (FOLD + lift) * Math.sin(angle);
    const height = past <= 0 ? FOLD + lift : (FOLD + lift) * Math.cos(angle);
    const across = side * flat * share;
    const crown = Math.max(0, (length - (LENGTH - FLAT_DOME)) / FLAT_DOME);
    const up = rise - 4.1 - 0.35 * Math.sin(Math.PI * crown) * (flat / half) ** 2;
    const ripple = 0.12 * clouds(across / 2.4 + 7, up / 3.1, 5, 2);
    const px = across * pixelsPerInch;
    const py = -(up + 0.05 * clouds(across / 3, up / 3, 6, 2)) * pixelsPerInch;
    return [middle[0] + px * cos - py * sin, middle[1] + px * sin + py * cos, (height + ripple) * pixelsPerInch];
  };
} // prettier-ignore

export function hatFlat(chart: ChartRows): Scene {
  const pixelsPerInch = 150;
  const yarn = yarnOf(chart, pixelsPerInch);
  const drape = flatDrape(pixelsPerInch, [905, 1150], -0.1);
  const [from, to] = [-6, AROUND / 2 + 6];
  const round = hatFabric(chart, from, to);
  return {
    ...PORTRAIT,
    strands: [
      ...liningStrands(
        (row) => (row > CHART_START + 10 ? [from + 9, to - 9] : [from, to]),
        ROWS - 2,
        1.3,
        { drape, yarnAt: () => yarn },
      ),
      ...edgeStrands(from, to, -0.3, 4 / 3, { drape, yarnAt: () => yarn, seed: 88 }),
      ...knitStrands(round, { drape, yarnAt: () => yarn, seed: 14, unevenness: 1 }),
    ],
    ground: paintedBoards(PORTRAIT, '#c9c2b4', 470, 21),
    floor: 0,
    shadow: { fallX: 34, fallY: 40, softness: 46 },
    exposure: 0.97,
    seed: 8,
    fibres: 8000,
  };
}

export function hatClose(chart: ChartRows): Scene {
  const pixelsPerInch = 640;
  const yarn = yarnOf(chart, pixelsPerInch);
  const [width, height] = [PORTRAIT.widthPixels, PORTRAIT.heightPixels];
  const fabric = hatFabric(chart, 40, 72);
  const tilt = -0.05;
  const drape: Drape = (x, row, z) => {
    const across = (x - 56) * STITCH * pixelsPerInch;
    const up = (heightOf(row) - heightOf(CHART_START + 16)) * pixelsPerInch;
    return [
      width / 2 + across * Math.cos(tilt) + up * Math.sin(tilt),
      height / 2 + across * Math.sin(tilt) - up * Math.cos(tilt),
      z * STITCH * pixelsPerInch,
    ];
  };
  return {
    ...PORTRAIT,
    strands: knitStrands(fabric, { drape, yarnAt: () => yarn, seed: 9, unevenness: 1 }),
    ground: (_x, _y, _shade, into) => into.fill(0.012),
    floor: -STITCH * pixelsPerInch * 3,
    shadow: { fallX: 0, fallY: 0, softness: 12 },
    exposure: 1.08,
    seed: 5,
    fibres: 7000,
  };
}

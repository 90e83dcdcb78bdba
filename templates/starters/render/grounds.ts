/**
 * What the pieces lie or stand on: calm surfaces with a little grain, darker where the piece keeps
 * the light away.
 */
import { clouds } from './noise.ts';
import type { Ground } from './picture.ts';
import { colourOf } from './yarn.ts';

/** A round thing that stands on the table: where it touches, how wide, seen how flat. */
export interface Standing {
  readonly x: number;
  readonly y: number;
  readonly radiusX: number;
  readonly radiusY: number;
}

interface Size {
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/** Light left on the table near something that stands on it: contact, and the shadow to the right. */
function lightBeside({ x, y, radiusX, radiusY }: Standing, px: number, py: number): number {
  const dx = (px - x) / radiusX;
  const dy = (py - y) / radiusY;
  const contact = Math.exp(-Math.max(0, Math.hypot(dx, dy) - 0.95) * 7);
  const cast = Math.hypot((dx - 0.62 - 0.2 * Math.max(0, dx)) / 1.3, (dy - 0.38) / 1.3);
  const soft = 1 / (1 + Math.exp((cast - 1.02) * 6.5));
  return (1 - 0.62 * contact) * (1 - 0.5 * soft);
}

/** A pale table that rises into a wall without an edge. */
export function paleRoom(size: Size, horizonY: number, things: readonly Standing[]): Ground {
  const [near, far] = [colourOf('#ded8cd'), colourOf('#c9cac6')];
  const { widthPixels, heightPixels } = size;
  return (x, y, _shade, into) => {
    const rise = Math.min(1, Math.max(0, (horizonY - y) / (heightPixels * 0.42)));
    const wall = rise * rise * (3 - 2 * rise);
    const grain = 1 + 0.014 * clouds(x / 4, y / 4, 71, 3) + 0.05 * clouds(x / 900, y / 900, 72, 2);
    const away = Math.hypot((x - widthPixels * 0.3) / widthPixels, (y - heightPixels * 0.3) / heightPixels);
    const lamp = 1.08 - 0.3 * away;
    const dark = things.reduce((light, thing) => light * lightBeside(thing, x, y), 1);
    for (let channel = 0; channel < 3; channel += 1) {
      const paint = (near[channel] ?? 0) * (1 - wall) + (far[channel] ?? 0) * wall;
      into[channel] = paint * grain * lamp * (dark + (1 - dark) * (channel === 2 ? 0.11 : 0.07));
    }
  };
} // prettier-ignore

/** Painted boards seen from above, the joints upright; `shade` is the shadow of what lies there. */
export function paintedBoards(size: Size, colour: string, boardPixels: number, seed: number): Ground {
  const paint = colourOf(colour);
  const { widthPixels, heightPixels } = size;
  return (x, y, shade, into) => {
    const board = Math.floor(x / boardPixels);
    const inBoard = x / boardPixels - board;
    const edge = Math.min(inBoard, 1 - inBoard) * boardPixels;
    const joint = 1 - 0.5 * Math.exp(-((edge / 2.6) ** 2)) - 0.08 * Math.exp(-((edge / 14) ** 2));
    const own = 1 + 0.05 * clouds(board * 7.3, 0.5, seed, 1);
    const grain = clouds(x / 9 + board * 53, y / 260 + board * 17, seed + 1, 4);
    const fine = clouds(x / 2.2, y / 60, seed + 2, 2);
    const away = Math.hypot((x - widthPixels * 0.28) / widthPixels, (y - heightPixels * 0.24) / heightPixels);
    const lamp = 1.1 - 0.34 * away;
    const light = own * joint * (1 + 0.075 * grain + 0.03 * fine) * lamp * (1 - 0.88 * shade);
    for (let channel = 0; channel < 3; channel += 1)
      into[channel] = (paint[channel] ?? 0) * light;
  };
} // prettier-ignore

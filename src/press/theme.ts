/**
 * The designer's look as the press wants it: typefaces for text and headings, the two colours with the
 * house's where one is missing, and the logo as a drawing no wider than the side column.
 */
import { present } from '../base/assert.ts';
import { readPathData } from '../base/path-data.ts';
import type { ThemeData } from '../pattern/bundle/theme.ts';
import type { Drawing, PathStep } from './drawing/drawing.ts';
import type { EditionOrder } from './edition/order.ts';
import { HOUSE_THEME, type Theme } from './fonts/chain.ts';
import { type ColourTheme, HOUSE_COLOURS } from './layout/style.ts';

const LOGO_ROOM = { widthPoints: 86, heightPoints: 40 };

export const typefacesOf = (theme: ThemeData | undefined): Theme => ({
  text: theme?.text ?? HOUSE_THEME.text,
  display: theme?.headings ?? HOUSE_THEME.display,
});

const coloursOf = (theme: ThemeData): ColourTheme => ({
  ink: theme.ink ?? HOUSE_COLOURS.ink,
  accent: theme.accent ?? HOUSE_COLOURS.accent,
});

/** What an edition takes of the theme; nothing where the designer has none. */
export function lookOf(
  theme: ThemeData | undefined,
  kind: EditionOrder['kind'] = 'standard',
): Pick<EditionOrder, 'colours' | 'logo'> {
  if (theme === undefined) return {};
  // One colour of ink, for the logo as for everything else.
  const logo = logoOf(kind === 'ink-saving' ? { ...theme, accent: coloursOf(theme).ink } : theme);
  return { colours: coloursOf(theme), ...(logo && { logo }) };
}

function logoOf(theme: ThemeData): Drawing | undefined {
  if (theme.logo === undefined) return undefined;
  const { width, height, paths } = theme.logo;
  const scale = Math.min(LOGO_ROOM.widthPoints / width, LOGO_ROOM.heightPoints / height);
  const colours = coloursOf(theme);
  return {
    widthPoints: width * scale,
    heightPoints: height * scale,
    symbols: {},
    shapes: paths.map(({ d, colour }) => ({
      kind: 'path',
      steps: present(readPathData(d), 'path data of a checked bundle').map((step) =>
        scaledStep(step, scale),
      ),
      fill: colours[colour],
    })),
  };
}

/** A command with its numbers; the rest of the tuple keeps its length. */
function scaledStep(step: PathStep, scale: number): PathStep {
  const [command, ...numbers] = step;
  return [command, ...numbers.map((value) => value * scale)] as unknown as PathStep;
}

/**
 * The measuring interface with a memory for one document: equal styles are one object, and a word that
 * was shaped in a style is found by that object and its text. The fonts keep words too, for all
 * documents; this spares the key they must build for each.
 */
import { present } from '../../../base/assert.ts';
import type { Fonts, Run, TextStyle } from '../../fonts/face.ts';
import type { TypeStyle } from '../style.ts';

export interface Shaped {
  readonly runs: readonly Run[];
  /** Thousandths of an em. */
  readonly width: number;
}

type Words = Map<string, Shaped>;

export class Measuring {
  readonly #fonts: Fonts;
  readonly #styles = new Map<string, TextStyle>();
  /** Words from left to right and from right to left. */
  readonly #words = new Map<TextStyle, readonly [Words, Words]>();
  readonly #baselines = new Map<string, number>();

  constructor(fonts: Fonts) {
    this.#fonts = fonts;
  }

  /** The one object for a style. */
  style(style: TextStyle): TextStyle {
    const key = `${style.family} ${style.weight} ${style.italic} ${style.language}`;
    const known = this.#styles.get(key);
    if (known !== undefined) return known;
    this.#styles.set(key, style);
    this.#words.set(style, [new Map(), new Map()]);
    return style;
  }

  /** Shapes text in a style that `style` gave. */
  shape(text: string, style: TextStyle, level: number): Shaped {
    const words = present(this.#words.get(style), 'a style of this document')[
      level % 2 === 1 ? 1 : 0
    ];
    const known = words.get(text);
    if (known !== undefined) return known;
    const runs = this.#fonts.shape(text, style, level);
    const shaped = { runs, width: runs.reduce((sum, run) => sum + run.width, 0) };
    words.set(text, shaped);
    return shaped;
  }

  missing(text: string, style: TextStyle): readonly string[] {
    return this.#fonts.missing(text, style);
  }

  /** Distance from the top of a line box to its baseline: height and depth leave equal room. */
  baseline(type: TypeStyle, language: string): number {
    const { family, weight, italic, size, leading } = type;
    const key = `${family} ${weight} ${italic} ${size} ${leading}`;
    const known = this.#baselines.get(key);
    if (known !== undefined) return known;
    const style = this.style({ family, weight, italic, language });
    const { ascender, descender } = this.#fonts.metrics(style);
    const baseline =
      (leading - ((ascender - descender) * size) / 1000) / 2 + (ascender * size) / 1000;
    this.#baselines.set(key, baseline);
    return baseline;
  }
}

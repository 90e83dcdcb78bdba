/**
 * Reads the path data of SVG (W3C, SVG 1.1, 8.3) as far as an outline needs it: moves, straight lines
 * and cubic curves, absolute or relative, and closing. Anything else is no path, and nothing throws.
 */
export type PathStep =
  | readonly ['M' | 'L', number, number]
  | readonly ['C', number, number, number, number, number, number]
  | readonly ['Z'];

const TOKEN = /[MLHVCZ]|[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/giy;
const SEPARATOR = /[\s,]*/y;
/** Numbers each command takes. */
const TAKES: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, Z: 0 };
const MOST_STEPS = 2_000;

/** Steps in absolute coordinates; undefined where the text is no such path. */
export function readPathData(text: string): readonly PathStep[] | undefined {
  const tokens = tokensOf(text);
  if (tokens === undefined || !/^m$/i.test(tokens[0] ?? '')) return undefined;
  const pen = new Pen();
  let at = 0;
  let command = '';
  while (at < tokens.length) {
    const token = tokens[at] as string;
    if (/^[a-z]$/i.test(token)) {
      command = token;
      at += 1;
    } else if (command.toUpperCase() === 'Z') return undefined;
    const takes = TAKES[command.toUpperCase()] ?? 0;
    const numbers = tokens.slice(at, at + takes).map(Number);
    if (numbers.length < takes || numbers.some(Number.isNaN)) return undefined;
    pen.draw(command, numbers);
    if (pen.steps.length > MOST_STEPS) return undefined;
    at += takes;
    // More numbers after a move are lines.
    if (command === 'M') command = 'L';
    if (command === 'm') command = 'l';
  }
  return pen.steps;
}

function tokensOf(text: string): readonly string[] | undefined {
  const tokens: string[] = [];
  let at = 0;
  while (at < text.length) {
    SEPARATOR.lastIndex = at;
    at += SEPARATOR.exec(text)?.[0].length ?? 0;
    if (at >= text.length) break;
    TOKEN.lastIndex = at;
    const [token] = TOKEN.exec(text) ?? [];
    if (token === undefined) return undefined;
    tokens.push(token);
    at += token.length;
  }
  return tokens;
}

class Pen {
  readonly steps: PathStep[] = [];
  #x = 0;
  #y = 0;
  #start: readonly [number, number] = [0, 0];

  draw(command: string, numbers: readonly number[]): void {
    const relative = command === command.toLowerCase();
    const [dx, dy] = relative ? [this.#x, this.#y] : [0, 0];
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = numbers;
    switch (command.toUpperCase()) {
      case 'M':
        this.#to(a + dx, b + dy);
        this.#start = [this.#x, this.#y];
        this.steps.push(['M', this.#x, this.#y]);
        return;
      case 'L':
        return this.#line(a + dx, b + dy);
      case 'H':
        return this.#line(a + dx, this.#y);
      case 'V':
        return this.#line(this.#x, a + dy);
      case 'C':
        this.steps.push(['C', a + dx, b + dy, c + dx, d + dy, e + dx, f + dy]);
        this.#to(e + dx, f + dy);
        return;
      default:
        this.steps.push(['Z']);
        this.#to(...this.#start);
    }
  }

  #line(x: number, y: number): void {
    this.#to(x, y);
    this.steps.push(['L', x, y]);
  }

  #to(x: number, y: number): void {
    this.#x = x;
    this.#y = y;
  }
}

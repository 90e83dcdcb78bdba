/**
 * One content stream while it grows. It remembers what is set (colours, font, line), so that nothing is
 * said twice, and forgets it where a saved state returns. Knows operators, not frames.
 */
import type { Stroke } from '../drawing/drawing.ts';
import { colourOperator, number, numbers, strokeOperators } from './operators.ts';

interface State {
  fill: string;
  stroke: string;
  font: string;
}

/** Fill and stroke are black where a page begins; no font is chosen (8.4.1). */
const INITIAL: Readonly<State> = { fill: '0 g', stroke: '', font: '' };

export class Canvas {
  readonly #parts: string[] = [];
  readonly #saved: State[] = [];
  #state: State = { ...INITIAL };

  add(operators: string): void {
    this.#parts.push(operators);
  }

  fill(colour: string): void {
    const operator = colourOperator(colour, 'fill');
    if (operator === this.#state.fill) return;
    this.#state.fill = operator;
    this.add(operator);
  }

  stroke(stroke: Stroke): void {
    const operators = strokeOperators(stroke);
    if (operators === this.#state.stroke) return;
    this.#state.stroke = operators;
    this.add(operators);
  }

  font(name: string, sizePoints: number): void {
    const operator = `/${name} ${number(sizePoints)} Tf`;
    if (operator === this.#state.font) return;
    this.#state.font = operator;
    this.add(operator);
  }

  /** Opens a state of its own, moved by a matrix (8.3.4). */
  save(...matrix: readonly number[]): void {
    this.#saved.push({ ...this.#state });
    this.add(`q ${numbers(...matrix)} cm`);
  }

  restore(): void {
    this.#state = this.#saved.pop() ?? { ...INITIAL };
    this.add('Q');
  }

  toString(): string {
    return this.#parts.join('\n');
  }
}

/** What the tests use of the formula reader; the package has no types of its own. */
declare module 'fast-formula-parser' {
  interface Position {
    readonly sheet: string;
    readonly row: number;
    readonly col: number;
  }
  export default class FormulaParser {
    constructor(options: {
      onCell(position: Position): unknown;
      functions?: Readonly<
        Record<string, (...values: readonly { readonly value: unknown }[]) => number>
      >;
    });
    parse(formula: string, position: Position): unknown;
  }
}

/** Types of the package `linebreak`, which has none: opportunities of UAX #14, one by one. */
declare module 'linebreak' {
  export interface Opportunity {
    readonly position: number;
    readonly required: boolean;
  }
  export default class LineBreaker {
    constructor(text: string);
    nextBreak(): Opportunity | null;
  }
}

/** The part of the npm package xliff that the tests use; it brings no types. */
declare module 'xliff/xliff2js' {
  interface ReadUnit {
    readonly source: unknown;
    readonly target?: unknown;
  }
  interface ReadXliff {
    readonly sourceLanguage: string;
    readonly targetLanguage: string;
    readonly resources: Readonly<Record<string, Readonly<Record<string, ReadUnit>>>>;
  }
  export default function xliff2js(xliff: string): Promise<ReadXliff>;
}

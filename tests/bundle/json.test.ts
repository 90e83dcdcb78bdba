import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readJson } from '../../src/pattern/bundle/json.ts';

const DEPTH = 32;

function problemOf(text: string): string {
  const [problem] = readJson(text, DEPTH).problems;
  if (!problem) return 'none';
  const place = `${problem.line}:${problem.column} ${problem.kind}`;
  return problem.kind === 'syntax'
    ? `${place}: ${problem.found}, needs ${problem.expected}`
    : place;
}

describe('a JSON text that is none', () => {
  it.each([
    ['', '1:1 syntax: the end of the file, needs a value'],
    ['{"a": 1,}', '1:9 syntax: “}”, needs a key in quotation marks'],
    ['{"a": 1 "b": 2}', '1:9 syntax: “"”, needs a comma or a closing brace'],
    ['{"a" 1}', '1:6 syntax: “1”, needs a colon'],
    ['{a: 1}', '1:2 syntax: “a”, needs a key in quotation marks'],
    ["{'a': 1}", "1:2 syntax: “'”, needs a key in quotation marks"],
    ['[1, 2', '1:6 syntax: the end of the file, needs a comma or a closing bracket'],
    ['[1 2]', '1:4 syntax: “2”, needs a comma or a closing bracket'],
    ['{\n  "a": [1,\n   ]\n}', '3:4 syntax: “]”, needs a value'],
    ['{\r\n  "a": nul\r\n}', '2:8 syntax: “nul”, needs a value'],
    ['"a\nb"', '1:3 syntax: the end of the line, needs a closing quotation mark'],
    ['"a\\x"', '1:3 syntax: “\\”, needs a known escape, like \\n or \\"'],
    ['01', '1:1 syntax: “01”, needs a value'],
    ['+1', '1:1 syntax: “+”, needs a value'],
    ['.5', '1:1 syntax: “.”, needs a value'],
    ['1.', '1:1 syntax: “1”, needs a value'],
    ['NaN', '1:1 syntax: “NaN”, needs a value'],
    ['true false', '1:6 syntax: “false”, needs the end of the file'],
    ['/* note */ {}', '1:1 syntax: “/”, needs a value'],
  ])('%j stops at its place', (text, problem) => {
    expect(problemOf(text)).toBe(problem);
    expect(() => JSON.parse(text) as unknown).toThrow();
  });
});

describe('a JSON text that would mislead', () => {
  it('names both lines of a key that stands twice', () => {
    const { problems } = readJson('{\n"sizes": 1,\n"sizes": 2\n}', DEPTH);
    expect(problems).toMatchObject([
      { kind: 'duplicate-key', key: 'sizes', firstLine: 2, line: 3, column: 1 },
    ]);
  });

  it('refuses keys that every object has from birth', () => {
    const text = '{"__proto__": {"sizes": []}, "constructor": 1, "toString": 2}';
    const { problems, value } = readJson(text, DEPTH);
    expect(problems.map((problem) => 'key' in problem && problem.key)).toEqual([
      '__proto__', 'constructor', 'toString',
    ]); // prettier-ignore
    expect(value).toEqual({});
    expect(Object.getPrototypeOf(value)).toBe(Object.prototype);
  });

  it('refuses nesting beyond the limit before the stack does', () => {
    expect(problemOf('['.repeat(33) + ']'.repeat(33))).toBe('1:33 too-deep');
    expect(problemOf('['.repeat(1_000_000))).toBe('1:33 too-deep');
    expect(problemOf('{"a":'.repeat(100_000))).toBe('1:161 too-deep');
    expect(problemOf('['.repeat(32) + ']'.repeat(32))).toBe('none');
  });
});

describe('lines of values', () => {
  it('counts LF, CR LF and CR as editors do', () => {
    for (const end of ['\n', '\r\n', '\r']) {
      const json = readJson(['{', '"a": [', '1,', '{"b/c": 2}', ']}'].join(end), DEPTH);
      expect(json.lineOf('/a/0')).toBe(3);
      expect(json.lineOf('/a/1/b~1c')).toBe(4);
      expect(json.lineOf('/nowhere')).toBeUndefined();
    }
  });
});

describe('against the language’s own reader', () => {
  const plain = fc.jsonValue({ maxDepth: 6 });

  it('reads every value alike', () => {
    fc.assert(
      fc.property(plain, fc.constantFrom(undefined, 2, '\t'), (value, indent) => {
        const text = JSON.stringify(value, null, indent);
        const read = readJson(text, DEPTH);
        fc.pre(read.problems.every(({ kind }) => kind !== 'forbidden-key'));
        expect(read.value).toEqual(JSON.parse(text));
      }),
    );
  });

  it('accepts and refuses the same altered texts', () => {
    const slip = fc.record({
      at: fc.nat(200),
      cut: fc.nat(3),
      put: fc.constantFrom('', ',', '"', '}', ']', '{', '[', '\\', '0', 'e', '-', '\n', '\u0001'),
    });
    fc.assert(
      fc.property(plain, slip, (value, { at, cut, put }) => {
        const whole = JSON.stringify(value);
        const text =
          whole.slice(0, at % whole.length) + put + whole.slice((at % whole.length) + cut);
        const read = readJson(text, DEPTH);
        const refused = read.problems.some(({ kind }) => kind === 'syntax');
        let parses = true;
        try {
          JSON.parse(text);
        } catch {
          parses = false;
        }
        expect(refused).toBe(!parses);
      }),
      { numRuns: 2000 },
    );
  });
});

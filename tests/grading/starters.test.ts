/**
 * The starters, graded from the body up: rules written down from each design's brief (body, ease, gauge,
 * repeat) give the very counts its rows have, in every size, and every piece has an outline that carries
 * all its letters. The rules are ours, the counts are the starters' own.
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { printFindings } from '../../src/findings/text.ts';
import { type BundleData, bundleSchema, type ProseData } from '../../src/pattern/bundle/schema.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { outlineFromRows } from '../../src/pattern/outlines/index.ts';

const sts = (id: string, rule: string, ...places: readonly string[]) => ({ id, unit: 'sts', rule, places }); // prettier-ignore

const RULES: Readonly<Record<string, readonly object[]>> = {
  'breakwater-hat': [
    sts('cast-on-sts', '(body head − 2 in) at rib, nearest multiple of twisted-rib', 'hat/cast-on'),
    sts('hat-sts', '(body head − 2 in) at ropes, nearest multiple of ropes', 'hat/body', 'hat/body-end'),
    sts('crown-sts', 'hat-sts / 16, up to whole', 'hat/crown-end'),
  ],
  'sea-fret-pullover': [
    sts('back-sts', '(body bust + 4 in) / 2 at body + 2 sts, nearest odd', 'back/body', 'front/body'),
    sts('hem-sts', 'back-sts − 5 sts, down to a multiple of rib', 'back/cast-on', 'front/cast-on'),
    sts('shoulder-sts', '(back-sts − 37 (37, 37, 39, 41) [41, 43, 43, 45] sts) / 2, exactly whole', 'front/left-shoulder'),
    { id: 'armhole-rows', unit: 'rows', rule: 'armhole at body, nearest even', places: [['back/underarm', 'back/shoulder']] },
  ],
  'spindrift-raglan': [
    sts('bust-sts', '(body bust + 3 in) at body, nearest even', 'body/divide', 'body/body'),
    sts('neck-sts', 'neck at rib, nearest multiple of rib', 'body/cast-on'),
    sts('arm-sts', 'upper-arm at body, nearest odd', 'sleeve/upper-arm'),
    sts('hem-sts', 'bust-sts − 2 sts', 'body/hem'),
  ],
  'tideline-socks': [
    sts('leg-sts', '(body foot − 1 in) at body, nearest multiple of 8', 'sock/cast-on', 'sock/leg', 'sock/foot'),
    sts('flap-sts', 'leg-sts / 2, exactly whole', 'sock/flap'),
    sts('turned-sts', 'leg-sts / 4 + 2 sts, exactly even', 'sock/turn'),
    sts('toe-sts', 'leg-sts / 4, nearest multiple of 4', 'sock/toe'),
  ],
  'cold-front-mittens': [
    sts('hand-sts', 'hand at body + 2 sts, nearest even', 'right/hand', 'left/hand'),
    sts('cuff-sts', 'hand-sts − 2 sts, exactly multiple of 4', 'right/cuff', 'left/cuff'),
    sts('thumb-sts', 'thumb at body, nearest even', 'right/thumb-around'),
  ],
  'undertow-shawl': [sts('edge-sts', '2 × (edge at lace) + 7 sts, nearest multiple of 4 + 1', 'shawl/border')],
  'little-squall-cardigan': [
    sts('body-sts', '(body chest + 1 in) at body, nearest even', 'body/underarm'),
    sts('cuff-sts', 'cuff at body, nearest odd', 'sleeve/cast-on'),
    sts('arm-sts', 'upper-arm at body, nearest odd', 'sleeve/underarm'),
    sts('yoke-sts', 'body-sts − 12 + 2 × (arm-sts − 6)', 'body/join'),
  ],
  'harbor-light-cardigan': [
    sts('back-sts', '(body bust + 4 in) / 2 at body + 2 sts, nearest odd', 'back/underarm'),
    sts('cuff-sts', 'cuff at garter + 2 sts, nearest even', 'sleeve/cuff'),
    sts('arm-sts', 'upper-arm at body + 2 sts, nearest even', 'sleeve/arm'),
  ],
  'mackerel-sky-yoke': [
    sts('body-sts', '(body bust + 4 in) at body, nearest multiple of 4', 'body/body'),
    sts('arm-sts', 'upper-arm at body, nearest even', 'sleeve/widest'),
    sts('yoke-sts', 'body-sts + 2 × arm-sts − 4 × 16 (18, 20, 24, 26) [28, 30, 32] sts, exactly multiple of 12', 'body/join'),
  ],
}; // prettier-ignore

function read(name: string, file: string): unknown {
  return JSON.parse(readFileSync(path.join('templates/starters', name, file), 'utf8'));
}

function graded(name: string, rules: readonly object[]) {
  const own: BundleData = bundleSchema.parse(read(name, 'pattern.json'));
  const data = bundleSchema.parse({ ...own, numbers: [...(own.numbers ?? []), ...rules] });
  const prose = new Map([['en-US', read(name, 'prose/en-US.json') as ProseData]]);
  return checkPattern({ data, prose, photos: new Map(), hash: name });
}

describe.each(Object.entries(RULES))('%s', (name, rules) => {
  it('its rules give its counts, in every size', () => {
    const { findings } = graded(name, rules);
    expect(printFindings(findings.filter(({ code }) => code.startsWith('grade/'))).trim()).toBe('');
  });

  it('a rule that is off by a repeat is told', () => {
    const [first, ...others] = rules as readonly [{ rule: string }];
    const { findings } = graded(name, [{ ...first, rule: `8 sts + ${first.rule}` }, ...others]);
    expect(findings.some(({ code }) => /^grade\/(place|exactly|units)/.test(code))).toBe(true);
  });

  it('every piece of its schematic has an outline with all letters, in every size', () => {
    const checked = graded(name, []);
    for (const entry of checked.pattern.bundle.data.schematic)
      checked.pattern.sizes.forEach((_, size) => {
        const outline = outlineFromRows(checked, entry, size);
        const roles = outline?.places.map(({ role }) => role) ?? [];
        expect(Object.keys(entry.measurements).filter((role) => !roles.includes(role))).toEqual([]);
      });
  });
});

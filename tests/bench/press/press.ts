/**
 * The press against a general-purpose native typesetter (Typst 0.14, its binding from npm), side by side
 * in one run: the same 15 pages (5,000 words, 4 tables, 4 charts of 40 × 60 cells, 2 drawings, 6
 * photographs already sized), cold and warm in three languages, then in 20 languages on two papers. CPU
 * is user + system of the whole process, Node's start and imports included; the engines take turns, so
 * that the machine's moods are shared. Run with `npm run bench:press`, some languages with `-- en ja`.
 */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { yardstick } from '../yardstick.ts';
import { type Engine, ENGINES, prepareEngines, run, writeDocument } from './engines.ts';

const LANGUAGES = ['en', 'de', 'ja'];
const PAPERS = ['A4', 'Letter'] as const;
const COLD_TURNS = 5;
const WARM_DOCUMENTS = 14;
/** Caches of code and fonts fill while the first ones are set. */
const WARMING = 4;

/** Milliseconds of CPU a document, megabytes, kilobytes. */
interface Row {
  readonly pages: number;
  readonly cold: number;
  readonly coldPeak: number;
  readonly warm: number;
  readonly warmPeak: number;
  readonly kilobytes: number;
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

function measure(folder: string, language: string): Map<Engine, Row> {
  const names = Array.from({ length: WARM_DOCUMENTS }, (_, number) => `${language}-${number}`);
  names.forEach((name, number) =>
    writeDocument(folder, name, yardstick(language, { seed: 20250314 + number })),
  );
  const turns = Array.from({ length: COLD_TURNS }, () =>
    ENGINES.map((engine) => run(engine, folder, names.slice(0, 1))),
  );
  return new Map(
    ENGINES.map((engine, at) => {
      const cold = turns.flatMap((turn) => turn[at] ?? []);
      const warm = run(engine, folder, names);
      const each = warm.costs.map((cost, number) => cost - (warm.costs[number - 1] ?? 0));
      const row: Row = {
        pages: warm.pages,
        cold: median(cold.map(({ costs }) => costs[0] ?? 0)),
        coldPeak: median(cold.map(({ peakMegabytes }) => peakMegabytes)),
        warm: median(each.slice(WARMING)),
        warmPeak: warm.peakMegabytes,
        kilobytes: warm.bytes / 1024,
      };
      return [engine, row];
    }),
  );
}

/** Every language on both papers, in one process of each engine. */
function measureAll(folder: string): Map<Engine, { readonly cpu: number; readonly peak: number }> {
  const names = readdirSync('locales').flatMap((language) =>
    PAPERS.map((paper) => {
      const name = `${language}-${paper}`;
      writeDocument(folder, name, yardstick(language, { paper }));
      return name;
    }),
  );
  return new Map(
    ENGINES.map((engine) => {
      const { costs, peakMegabytes } = run(engine, folder, names);
      return [engine, { cpu: (costs.at(-1) ?? 0) / names.length, peak: peakMegabytes }];
    }),
  );
}

const figures = (...values: readonly number[]): string =>
  values.map((value) => value.toFixed(0).padStart(8)).join(' ');

function judge(name: string, share: number, aim: number): void {
  const verdict = share <= aim ? 'reached' : 'MISSED ';
  console.log(`  ${verdict}  ${name.padEnd(28)} ${share.toFixed(2)} (aim ${aim.toFixed(2)})`);
}

function tell(language: string, rows: ReadonlyMap<Engine, Row>): void {
  console.log(`\n${language.padEnd(26)} pages  cold ms  peak MB  warm ms  peak MB      kB`);
  for (const [engine, { pages, cold, coldPeak, warm, warmPeak, kilobytes }] of rows)
    console.log(engine.padEnd(24), figures(pages, cold, coldPeak, warm, warmPeak, kilobytes));
  const [own, svg, shapes] = [...rows.values()];
  if (!own || !svg || !shapes) return;
  judge('warm, against SVG charts', own.warm / svg.warm, 1 / 3);
  judge('warm, against shapes', own.warm / shapes.warm, 1 / 6);
  judge('cold, against SVG charts', own.cold / svg.cold, 1);
  judge('cold, against shapes', own.cold / shapes.cold, 1);
  judge('memory, cold', own.coldPeak / svg.coldPeak, 1);
  judge('memory, warm', own.warmPeak / svg.warmPeak, 1);
  judge('size of the file', own.kilobytes / svg.kilobytes, 1);
}

function tellAll(rows: ReturnType<typeof measureAll>): void {
  console.log('\n20 languages × 2 papers    ms each  peak MB');
  for (const [engine, { cpu, peak }] of rows) console.log(engine.padEnd(24), figures(cpu, peak));
  const [own, svg, shapes] = [...rows.values()];
  if (!own || !svg || !shapes) return;
  judge('all, against SVG charts', own.cpu / svg.cpu, 1 / 3);
  judge('all, against shapes', own.cpu / shapes.cpu, 1 / 6);
  judge('memory, all', own.peak / svg.peak, 1);
}

const folder = mkdtempSync(path.join(tmpdir(), 'castoff-bench-'));
try {
  await prepareEngines(folder);
  const wanted = process.argv.slice(2);
  for (const language of wanted.length > 0 ? wanted : LANGUAGES)
    tell(language, measure(folder, language));
  if (wanted.length === 0) tellAll(measureAll(folder));
} finally {
  rmSync(folder, { recursive: true });
}

/**
 * veraPDF, the validator of the PDF Association, as one function: PDF files in, its verdicts on PDF/A-2a
 * and PDF/UA-1 out. All files go through one process, because starting it costs more than a file does.
 * Runs where `fetch-jars.sh` has fetched its jars.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { basename, join } from 'node:path';

const CACHE = process.env['XDG_CACHE_HOME'] ?? join(homedir(), '.cache');
const JARS = join(CACHE, 'castoff', 'verapdf');

export const hasVeraPdf =
  existsSync(JARS) && readdirSync(JARS).some((jar) => jar.startsWith('validation-model'));
export const whySkipped = hasVeraPdf ? '' : ' (skipped: veraPDF is not installed)';

export interface Verdict {
  readonly standard: '2a' | 'ua1';
  readonly pass: boolean;
  /** Places that were looked at, and rules of the standard they were held to. */
  readonly checks: number;
  readonly rules: number;
  /** `7.3-1` and what it says, once for each rule that was broken. */
  readonly broken: readonly string[];
}

const HEAD = /^(pass|FAIL)\t(2a|ua1)\t(.*)\t(\d+) checks\t(\d+) rules$/;

/** The verdicts on each file by its name without `.pdf`: one for each standard. */
export function judge(paths: readonly string[]): Map<string, Verdict[]> {
  const verdicts = new Map<string, Verdict[]>();
  let broken: string[] = [];
  for (const line of runJudge(paths).split('\n')) {
    const head = HEAD.exec(line);
    if (head === null) {
      if (line !== '') broken.push(line.trim());
      continue;
    }
    const [, verdict, standard, path = '', checks, rules] = head;
    const name = basename(path, '.pdf');
    broken = [];
    const own: Verdict = {
      standard: standard === '2a' ? '2a' : 'ua1',
      pass: verdict === 'pass',
      checks: Number(checks),
      rules: Number(rules),
      broken,
    };
    verdicts.set(name, [...(verdicts.get(name) ?? []), own]);
  }
  return verdicts;
}

function runJudge(paths: readonly string[]): string {
  const source = join('tests', 'conformance', 'verapdf', 'Judge.java');
  try {
    return execFileSync('java', ['-cp', join(JARS, '*'), source, ...paths], {
      encoding: 'utf8',
      maxBuffer: 64 * 1024 * 1024,
      stdio: ['ignore', 'pipe', 'ignore'],
    });
  } catch (failure) {
    // Exit 1 says that a file failed; its lines are on the output as always.
    return String((failure as { stdout?: string }).stdout ?? '');
  }
}

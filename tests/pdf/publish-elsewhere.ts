/**
 * Publishes a small bundle in a process of its own and prints the hash of every file of the release.
 * Arguments: the bundle, the day this process believes it is, how many documents at once. The clock and
 * the dice are replaced before the program is loaded.
 */
const [bundle = '', day = '', atOnce = '1'] = process.argv.slice(2);

const RealDate = Date;
const start = RealDate.now();
const wrong = RealDate.parse(day);
globalThis.Date = class extends RealDate {
  constructor(...parts: readonly unknown[]) {
    super(...((parts.length > 0 ? parts : [wrong + RealDate.now() - start]) as [number]));
  }

  static override now(): number {
    return wrong + RealDate.now() - start;
  }
} as DateConstructor;
Math.random = () => (wrong % 997) / 997;

const { openOwnRooms } = await import('../../src/cli/resources.ts');
const { publish } = await import('../../src/pipeline/publish.ts');
const { memoryStore } = await import('../../src/store/memory.ts');

const published = await publish(
  {
    bundle,
    releases: memoryStore(),
    editions: [{ kind: 'standard' }, { kind: 'large' }],
    concurrency: Number(atOnce),
  },
  { rooms: await openOwnRooms(), token: day },
);
const told =
  published.outcome === 'blocked'
    ? published.findings.map(({ code, where }) => `${code} ${where.pointer}`)
    : published.manifest.files.map(({ path, artifact }) => [path, artifact]);
process.stdout.write(JSON.stringify({ outcome: published.outcome, now: new Date().getFullYear(), told })); // prettier-ignore

export {};

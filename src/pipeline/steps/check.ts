/**
 * Second step: does every number follow, in every size, and can every language say it? Gives the
 * documents to compose, or keeps the findings that block. Nothing has been made yet when it refuses.
 */
import { Fault } from '../../base/fault.ts';
import { RUN_LIMITS } from '../../base/limits.ts';
import type { Finding } from '../../findings/finding.ts';
import type { BundleData } from '../../pattern/bundle/schema.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { requireFreeVersion } from '../../release/commit.ts';
import { adviseVersion } from '../../release/errata/version.ts';
import { reviewsAt, type ReviewOrder, type Stage, stopsAt } from '../../release/stage.ts';
import { checkHeldOver } from '../../translation/index.ts';
import { addFindings } from '../claims.ts';
import { findEarlier, keepFollows, recallEarlier } from '../follows.ts';
import type { CheckInput, CheckOutput, Settings } from '../payloads.ts';
import type { DocumentOrder, Ports } from '../ports.ts';
import { recallChecked } from '../recall-checked.ts';
import { keepPlan } from '../run-progress.ts';

export async function check(input: CheckInput, ports: Ports): Promise<CheckOutput> {
  const checked = await recallChecked(ports, input.bundle);
  const { data } = checked.pattern.bundle;
  const { id: pattern, version } = data;
  const orders = [...ordersOf(data, input.settings)];
  await keepPlan(ports.work, input.run, { pattern, version, orders });
  const found: Finding[] = [...checked.findings, ...checkHeldOver(data)];
  for (const language of languagesOf(data, input.settings)) {
    found.push(...(await ports.rooms.checkLanguage(checked, language)));
  }
  const stage = stageOf(input.settings);
  found.push(...reviewsAt(stage, reviewOrder(data, input.settings, ports)));
  const findings = await addFindings(ports.work, input.run, found);
  if (findings.some((each) => stopsAt(stage, each))) return { outcome: 'blocked', orders: [] };
  const languages = languagesOf(data, input.settings);
  const wanted = { pattern, version, bundle: input.bundle, languages };
  await requireFreeVersion(ports.releases, wanted, stage);
  await follow(input, checked, ports);
  return { outcome: 'clean', orders };
}

/** Compares with the versions before this one; refuses a number that is too small for the change. */
async function follow(input: CheckInput, checked: CheckedPattern, ports: Ports): Promise<void> {
  const { bundle } = checked.pattern;
  const versions = await findEarlier(ports, bundle);
  const earlier = await recallEarlier(ports, bundle.data.id, versions);
  const [last] = earlier;
  const advice = last && adviseVersion(last.pattern.bundle.data, bundle.data);
  if (advice) {
    throw new Fault('conflict', advice.problem, {
      place: 'pattern.json /version',
      remedy: `raise "version" to ${advice.least}`,
    });
  }
  const history: Record<string, string> = {};
  for (const language of languagesOf(bundle.data, input.settings)) {
    if (!last?.pattern.bundle.data.languages.includes(language)) continue;
    const line = ports.rooms.sayHistory(checked, earlier, language);
    if (line !== undefined) history[language] = line;
  }
  await keepFollows(ports.work, input.run, { earlier: [...versions], history });
}

/** For sale where nothing is said. */
export const stageOf = ({ stage = 'sale' }: Settings): Stage => stage;

export const reviewOrder = (data: BundleData, settings: Settings, ports: Ports): ReviewOrder => ({
  data,
  languages: languagesOf(data, settings),
  unreviewed: ports.rooms.unreviewed,
  allowed: settings.unreviewed ?? [],
});

/** The languages of the bundle that this run publishes, in its order: all but those held over. */
export function languagesOf(data: BundleData, settings: Settings): string[] {
  const wanted = settings.languages;
  const unknown = wanted?.find((language) => !data.languages.includes(language));
  if (unknown !== undefined) {
    throw new Fault('usage', `the bundle has no language ${unknown}`, {
      place: unknown,
      remedy: `it has ${data.languages.join(', ')}`,
    });
  }
  const held = new Set(data.heldOver?.map(({ language }) => language));
  const asked = wanted?.find((language) => held.has(language));
  if (asked !== undefined) {
    throw new Fault('usage', `${asked} is held over in this version`, {
      place: 'pattern.json /heldOver',
      remedy: `take ${asked} out of heldOver, or leave it out of --languages`,
    });
  }
  const published = data.languages.filter(
    (language) => !held.has(language) && (wanted === undefined || wanted.includes(language)),
  );
  if (published.length > 0) return published;
  throw new Fault('usage', 'every language is held over, so that nothing is left to publish', {
    place: 'pattern.json /heldOver',
  });
}

function ordersOf(data: BundleData, settings: Settings): readonly DocumentOrder[] {
  const editions = settings.editions ?? [{ kind: 'standard' as const }];
  for (const { kind, size } of editions) {
    if (kind === 'one-size' && !data.sizes.includes(size ?? '')) {
      throw new Fault('usage', `the pattern has no size ${size ?? '(none given)'}`, {
        remedy: `its sizes are ${data.sizes.join(', ')}`,
      });
    }
  }
  const stage = stageOf(settings);
  const marked = stage !== 'sale' && { stage };
  const orders = languagesOf(data, settings).flatMap((language) =>
    editions.map((edition) => ({ language, edition, ...marked })),
  );
  if (orders.length <= RUN_LIMITS.documents) return orders;
  throw new Fault(
    'usage',
    `${orders.length} documents in one run; at most ${RUN_LIMITS.documents}`,
    {
      remedy: 'publish fewer editions at a time',
    },
  );
}

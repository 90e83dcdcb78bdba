/**
 * The release of one pattern: what a run would bring, the run that is at work, and what was released.
 * What buyers of the version before would be told is asked for after the page, for it takes longer.
 */
import { blocks } from '../../findings/finding.ts';
import type { BundleData } from '../../pattern/bundle/schema.ts';
import { tagOf } from '../../shelf/shelf.ts';
import { type Answer, page } from '../answer.ts';
import type { Asked, Desk } from '../desk.ts';
import { type ReleaseOrder, releaseView } from '../release-view.ts';
import type { Run } from '../run-record.ts';
import { type ChosenStage, nextStage, sayMade, stagesView } from '../stages-view.ts';
import type { Say, Wording } from '../wording.ts';
import { frameOf } from './frame.ts';
import { copiesView } from './made.ts';

/** Older releases are listed by their number alone. */
const SHOWN = 6;
const RUNS_SHOWN = 20;

export const showRelease = (desk: Desk, asked: Asked): Promise<Answer> =>
  releasePage(desk, asked, { status: 200 });

/** What was chosen on the form and was not started, and why. */
export interface Unstarted {
  readonly chosen: ChosenStage;
  /** Editions and papers, as the form names them. */
  readonly ticked: readonly string[];
  readonly refused: string;
}

export async function releasePage(
  desk: Desk,
  { words, wording }: Asked,
  { status, unstarted }: { readonly status: number; readonly unstarted?: Unstarted },
): Promise<Answer> {
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const [looked, known] = await Promise.all([desk.look(name), desk.languages()]);
  const data = looked.bundle?.data;
  const frame = frameOf(looked, name, 'release', say);
  const address = `/patterns/${encodeURIComponent(name)}`;
  const nameOf = (tag: string) => known.get(tag)?.settings.name ?? tag;
  const runs = (await desk.runs.of(name)).slice(0, RUNS_SHOWN);
  const working = runs.find(({ state }) => state === 'working');
  const versions = data ? await desk.releases.versions(data.id) : [];
  const copies = data ? await desk.releases.copies(data.id) : [];
  const stage = nextStage(data?.version ?? '', versions, copies);
  const chosen = unstarted?.chosen ?? { stage, knowingly: [] };
  const view = {
    ...frame,
    working: working && { run: working.run, resumed: working.resumed > 0, made: sayRun(working, say) },
    names: (data?.languages ?? []).map((tag) => `${tag}=${nameOf(tag)}`).join('|'),
    runs: runs.map((run) => runView(run, wording)),
    stages: stagesView({ looked, languages: known, chosen, address, wording }),
    refused: unstarted?.refused ?? '',
    editions: choicesOf(unstarted?.ticked ?? [], say),
    copies: copiesView(copies, (each) => `${address}/made/${each}`, say),
    releases: await releasesOf(desk, versions, { data, nameOf, wording }),
    older: versions.slice(SHOWN).map((version) => ({ version, address: `${address}/made/${version}` })),
    testing: data && !looked.findings.some(blocks) && testingOf(data, nameOf),
    version: data?.version ?? '',
    languages: wording.list((data?.languages ?? []).map(nameOf)),
    heldOver: (data?.heldOver ?? []).map(({ language, reason }) => ({ language: nameOf(language), reason })),
    readable: data !== undefined,
  }; // prettier-ignore
  return page(render('release', view), status);
}

/** What test copies can be made in. */
const testingOf = (data: BundleData, nameOf: (tag: string) => string) => ({
  sizes: data.sizes,
  languages: data.languages.map((tag) => ({
    tag,
    name: nameOf(tag),
    chosen: tag === data.language,
  })),
});

/** Boxes of the form that are ticked; the standard edition always is. */
const choicesOf = (ticked: readonly string[], say: Say) => ({
  both: ticked.includes('both'),
  kinds: (['large', 'ink-saving', 'one-size'] as const).map((kind) => ({
    kind,
    ticked: ticked.includes(kind),
    name: say(kind === 'one-size' ? 'run.everySize' : `edition.${kind}`),
  })),
});

interface ShownReleases extends Pick<ReleaseOrder, 'nameOf' | 'wording'> {
  readonly data: BundleData | undefined;
}

/** Each against the version before it. */
async function releasesOf(
  { releases }: Desk,
  versions: readonly string[],
  { data, nameOf, wording }: ShownReleases,
): Promise<readonly object[]> {
  const shown = versions.slice(0, SHOWN + 1);
  const manifests = await Promise.all(
    shown.map((version) => releases.manifest(data?.id ?? '', version)),
  );
  const views = manifests.slice(0, SHOWN).map((manifest, at) => {
    const wanted = at === 0 ? (data?.languages ?? []) : manifest.languages;
    return releaseView({ releases, manifest, before: manifests[at + 1], wanted, nameOf, wording });
  });
  return Promise.all(views);
}

/** What a run is to make, or has made. */
const sayRun = ({ version = '', stage, copy, settings }: Run, say: Say): string => {
  const wanted = settings.stage === 'sale' ? undefined : settings.stage;
  return stage === undefined && wanted === undefined && version === ''
    ? say('stage.sale')
    : sayMade({ version, stage: stage ?? wanted, copy }, say);
};

const runView = (run: Run, { say, minute, fault }: Wording) => {
  const { made = 0, reused = 0, state, settings } = run;
  const { message, remedy } = fault(run);
  const forSale = (settings.stage ?? 'sale') === 'sale';
  return {
    run: run.run,
    made: sayRun(run, say),
    message,
    remedy,
    stateWord: say(state === 'released' && !forSale ? 'state.made' : `state.${state}`),
    started: minute(run.started),
    counts: state === 'released' ? say('run.made', { made, reused }) : '',
    again: state !== 'working' && state !== 'released',
  };
};

/** What the next release would follow, as a part of the page. */
export async function showFollow(desk: Desk, { call, words, wording }: Asked): Promise<Answer> {
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const { bundle, texts } = await desk.look(name);
  const offered = bundle?.data.languages ?? [];
  const asked = offered.find((tag) => tag === call.query.get('language'));
  const language = asked ?? bundle?.data.language ?? '';
  const follow = await desk.work.ask('follow', { name, language });
  const known = await desk.languages();
  const { previous, released, least, sheets } = follow;
  const version = bundle?.data.version ?? '';
  const pattern = texts.get('pattern.json');
  const view = {
    address: `/patterns/${encodeURIComponent(name)}`,
    said: released
      ? say('follow.released', { version })
      : previous === undefined
        ? say('follow.first', { version })
        : sheets.length === 0
          ? say('follow.same', { version, previous })
          : say('follow.errata', { version, previous }),
    least: least ?? '',
    leastWords: least === undefined ? '' : say('follow.least', { version, least }),
    tag: pattern ? tagOf(pattern) : '',
    sheets,
    open: asked !== undefined,
    others: offered.map((tag) => ({
      tag,
      name: known.get(tag)?.settings.name ?? tag,
      chosen: tag === language,
    })),
  };
  return page(render('follow', view));
}

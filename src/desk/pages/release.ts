/**
 * The release of one pattern: what a run would bring, the run that is at work, and what was released.
 * What buyers of the version before would be told is asked for after the page, for it takes longer.
 */
import { blocks } from '../../findings/finding.ts';
import { type Answer, page } from '../answer.ts';
import { tagOf } from '../../shelf/shelf.ts';
import { releaseView } from '../release-view.ts';
import type { Asked, Desk } from '../desk.ts';
import type { Run } from '../run-record.ts';
import type { Wording } from '../wording.ts';
import { frameOf } from './frame.ts';

/** Older releases are listed by their number alone. */
const SHOWN = 6;
const RUNS_SHOWN = 20;

export async function showRelease(desk: Desk, { words, wording }: Asked): Promise<Answer> {
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const looked = await desk.look(name);
  const data = looked.bundle?.data;
  const known = await desk.languages();
  const nameOf = (tag: string) => known.get(tag)?.settings.name ?? tag;
  const runs = (await desk.runs.of(name)).slice(0, RUNS_SHOWN);
  const working = runs.find(({ state }) => state === 'working');
  const versions = data ? await desk.releases.versions(data.id) : [];
  const shown = versions.slice(0, SHOWN + 1);
  const manifests = await Promise.all(
    shown.map((version) => desk.releases.manifest(data?.id ?? '', version)),
  );
  const releases = manifests.slice(0, SHOWN).map((manifest, at) =>
    releaseView({
      releases: desk.releases,
      manifest,
      before: manifests[at + 1],
      wanted: at === 0 ? (data?.languages ?? []) : manifest.languages,
      nameOf,
      wording,
    }),
  );
  const view = {
    ...frameOf(looked, name, 'release', say),
    working: working && { run: working.run, resumed: working.resumed > 0 },
    names: (data?.languages ?? []).map((tag) => `${tag}=${nameOf(tag)}`).join('|'),
    runs: runs.map((run) => runView(run, wording)),
    releases: await Promise.all(releases),
    older: versions.slice(SHOWN).join(', '),
    version: data?.version ?? '',
    languages: (data?.languages ?? []).map(nameOf).join(', '),
    heldOver: (data?.heldOver ?? []).map(({ language, reason }) => ({ language: nameOf(language), reason })), // prettier-ignore
    blocked: looked.findings.filter(blocks).length,
    readable: data !== undefined,
  };
  return page(render('release', view));
}

const runView = (run: Run, { say, minute }: Wording) => {
  const { message = '', remedy = '', made = 0, reused = 0, version = '', state } = run;
  return {
    run: run.run,
    version,
    message,
    remedy,
    stateWord: say(`state.${state}`),
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
    title: say('follow.title'),
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

/** From a bundle that was handed in to the end of its run: how far it is, what it found, what went wrong. */
import { DESK_LIMITS } from '../../src/base/limits.ts';
import { groupFindings } from '../../src/desk/findings-view.ts';
import type { Say } from '../../src/desk/wording.ts';
import type { Run } from './client.ts';
import type { Asked } from './pages.ts';
import type { Served } from './request.ts';
import { nameOf, shown } from './shelf.ts';
import { led } from './sign-in.ts';

export async function followUpload({ request, api, wording }: Asked): Promise<Served> {
  const run = await api.runOf(request.words['upload'] ?? '');
  if (run !== undefined) return led(`/progress/${run}`);
  return shown(wording.render('cloud-arriving', { title: wording.say('cloud.arriving') }));
}

export async function followRun({ request, api, wording }: Asked): Promise<Served> {
  const { say } = wording;
  const run = await api.run(request.words['run'] ?? '');
  const working = run.state === 'working';
  // While it is at work, findings still come.
  const { findings, more } = working ? { findings: [], more: 0 } : await api.findings(run.run);
  const { pattern, version } = run;
  const view = {
    title: say(`state.${run.state}`),
    working,
    steps: working ? stepsOf(run, say) : [],
    standing: standingOf(run, say),
    message: run.message ?? '',
    place: run.place ?? '',
    remedy: run.remedy ?? '',
    release: pattern !== undefined &&
      version !== undefined && {
        address: `/patterns/${pattern}/${version}`,
        title: `${nameOf(pattern)} ${version}`,
      },
    groups: groupFindings(findings, new Map(), wording),
    more: more + Math.max(0, findings.length - DESK_LIMITS.findings),
    correct: findings.length > 0,
  };
  return shown(wording.render('cloud-run', view));
}

const STEPS = ['intake', 'check', 'pictures', 'stage'] as const;

const stepsOf = ({ done }: Run, say: Say) =>
  STEPS.map((step) => ({
    said: say(`cloud.step.${step}`),
    state: say(done.includes(step) ? 'cloud.done' : 'cloud.waits'),
    done: done.includes(step),
  }));

function standingOf({ state, blocking }: Run, say: Say): string {
  switch (state) {
    case 'blocked':
      return say('findings.blocked', { count: blocking });
    case 'released':
      return say('findings.clear');
    case 'lost':
      return say('cloud.lost');
    case 'working':
    case 'failed':
    case 'cancelled':
      return '';
  }
}

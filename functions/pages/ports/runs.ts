/**
 * Runs over the API. What a run has done so far is told at once, and again when the browser asks anew: an
 * answer of a function cannot stay open, and a listener that was cut off asks by itself.
 */
import type { Stream } from '../../../src/desk/answer.ts';
import type { Run } from '../../../src/desk/run-record.ts';
import type { Runs } from '../../../src/desk/runs.ts';
import type { Progress } from '../../../src/pipeline/ports.ts';
import type { Api } from '../client.ts';
import type { RunTold } from '../told.ts';

export function apiRuns(api: Api): Runs {
  return {
    of: async (source) => (await api.runs(source)).map(recordOf),
    get: async (run) => recordOf(await api.run(run)),
    start: async (source, settings) => recordOf(await api.run(await api.start(source, settings))),
    cancel: (run) => api.stop(run),
    listen: async (run) => streamOf(await api.run(run)),
  };
}

function recordOf({
  bundle = '',
  startedAt,
  done: _done,
  documents: _documents,
  ...told
}: RunTold): Run {
  return { ...told, source: bundle, started: startedAt, resumed: 0 };
}

function streamOf(run: RunTold): Stream {
  return {
    open(send, end) {
      for (const event of eventsOf(run)) send('progress', event);
      if (run.state !== 'working') {
        send('end', recordOf(run));
        end();
      }
      return () => undefined;
    },
  };
}

/** The steps in their order, the documents where they are made. */
function eventsOf({ done, documents }: RunTold): readonly Progress[] {
  const step = (name: RunTold['done'][number]): readonly Progress[] =>
    done.includes(name) ? [{ step: name, state: 'done' }] : [];
  const made = documents.map(({ language, edition, done: isDone }): Progress => ({
    step: 'proof',
    state: isDone ? 'done' : 'started',
    language,
    edition,
  }));
  return [...step('intake'), ...step('check'), ...step('pictures'), ...made, ...step('stage')];
}

/**
 * The pipeline on one machine: the state machine of the cloud, run in this process over a folder or a
 * bucket. Takes a bundle's path and where the release goes; gives the release, or the findings that
 * block it. A fault that ended the run is thrown as it happened.
 */
import { setTimeout as pause } from 'node:timers/promises';
import { z } from 'zod';
import definition from './pipeline.asl.json' with { type: 'json' };
import { present } from '../base/assert.ts';
import { Fault } from '../base/fault.ts';
import { RUN_LIMITS } from '../base/limits.ts';
import type { Finding } from '../findings/finding.ts';
import { unpackBundle } from '../pattern/bundle/unpack.ts';
import type { Manifest } from '../release/manifest.ts';
import type { Stage } from '../release/stage.ts';
import { memoryStore } from '../store/memory.ts';
import type { Store } from '../store/store.ts';
import { recallFindings, recallReleased } from './claims.ts';
import { readDefinition } from './machine/definition.ts';
import { runMachine } from './machine/run.ts';
import type { Settings } from './payloads.ts';
import { stageOutput } from './payloads.ts';
import type { Log, Ports, Progress, Rooms } from './ports.ts';
import { silentLog } from './ports.ts';
import { runStep, STEP_NAMES } from './run-step.ts';

export interface PublishOptions {
  /** Path of a folder or zip, or the bytes of a zip. */
  readonly bundle: string | Uint8Array;
  readonly releases: Store;
  /** Also written as a folder to open: `<folder>/<pattern>/<version>/…`. */
  readonly folder?: string;
  /** Languages of the bundle to publish; all where left out. */
  readonly languages?: readonly string[];
  readonly editions?: Settings['editions'];
  /** For sale where left out. */
  readonly stage?: Stage;
  /** Languages that are knowingly offered unreviewed, or `all`. */
  readonly unreviewed?: readonly string[];
  /** Documents composed at once. */
  readonly concurrency?: number;
  readonly signal?: AbortSignal;
}

/** What the caller's machine lends; each has a plain default but the rooms. */
export interface PublishWorld {
  readonly rooms: Rooms;
  readonly log?: Log;
  /** Names building folders; must differ between runs at the same time. */
  readonly token: string;
  readonly work?: Store;
  readonly sleep?: (seconds: number) => Promise<void>;
  readonly random?: () => number;
}

export type Published =
  | { readonly outcome: 'blocked'; readonly findings: readonly Finding[] }
  | {
      /** `already`: this very release was there before. */
      readonly outcome: 'released' | 'already';
      readonly findings: readonly Finding[];
      readonly manifest: Manifest;
      readonly made: number;
      readonly reused: number;
      /** The folder of this version, where one was written. */
      readonly folder?: string | undefined;
      /** Where a folder that somebody had changed by hand was moved to; tell the person. */
      readonly setAside?: string | undefined;
    };

const DEFAULT_CONCURRENCY = 2;
const stageEnd = z.object({ stage: stageOutput });

export async function publish(
  options: PublishOptions,
  world: PublishWorld,
  progress: (event: Progress) => void = () => undefined,
): Promise<Published> {
  const ports = portsOf(options, world, progress);
  const { languages, editions, stage, unreviewed } = options;
  const settings = {
    ...(languages !== undefined && { languages: [...languages] }),
    ...(editions !== undefined && { editions }),
    ...(stage !== undefined && { stage }),
    ...(unreviewed !== undefined && { unreviewed: [...unreviewed] }),
  };
  const run = 'local';
  const end = await runMachine(
    readDefinition(definition),
    { studio: 'local', source: 'local', settings },
    {
      executionName: run,
      concurrency: Math.min(options.concurrency ?? DEFAULT_CONCURRENCY, RUN_LIMITS.concurrency),
      signal: options.signal,
      task: (name, input) => {
        const step = present(
          STEP_NAMES.find((each) => each === name),
          `step ${name}`,
        );
        return runStep(step, input, ports);
      },
      sleep: world.sleep ?? ((seconds) => pause(seconds * 1000)),
      random: world.random ?? Math.random,
    },
  );
  if (end.status === 'failed') throw faultOf(end.thrown, end.error);
  const findings = await recallFindings(ports.work, run);
  if (end.state === 'Blocked') return { outcome: 'blocked', findings };
  const { outcome, made, reused, folder, setAside } = stageEnd.parse(end.output).stage;
  if (outcome === 'blocked') return { outcome, findings };
  const manifest = await recallReleased(ports.work, run);
  return { outcome, findings, manifest, made, reused, folder, setAside };
}

function portsOf(
  options: PublishOptions,
  world: PublishWorld,
  progress: (event: Progress) => void,
): Ports {
  return {
    rooms: world.rooms,
    readBundle: () => unpackBundle(options.bundle),
    work: world.work ?? memoryStore(),
    releases: options.releases,
    ...(options.folder !== undefined && {
      handOver: { folder: options.folder, token: world.token },
    }),
    log: world.log ?? silentLog,
    tell: async () => undefined,
    progress,
  };
}

/** The fault as it happened, not as the state machine carried it. */
function faultOf(thrown: unknown, error: string): unknown {
  const original = thrown instanceof Error ? thrown.cause : undefined;
  return original ?? new Fault('store', `the run ended with ${error}`);
}

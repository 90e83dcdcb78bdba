/**
 * Publishing a pattern of this machine into the folder of its releases. Takes paths, gives how it ended
 * as plain data that can travel between processes; the cloud has its state machine for this.
 */
import type { Finding } from '../../findings/finding.ts';
import type { Progress, Rooms } from '../../pipeline/ports.ts';
import type { Settings } from '../../pipeline/payloads.ts';
import { publish } from '../../pipeline/publish.ts';
import type { MarkedStage } from '../../release/stage.ts';
import { folderStore } from '../../store/folder.ts';

export interface PublishJob {
  readonly folder: string;
  /** Where releases go; `.store` lies in it. */
  readonly releases: string;
  readonly token: string;
  readonly settings: Settings;
}

export interface PublishEnd {
  readonly outcome: 'blocked' | 'released' | 'already';
  readonly findings: readonly Finding[];
  readonly pattern?: string;
  readonly version?: string;
  /** Where it is not for sale. */
  readonly stage?: MarkedStage;
  readonly copy?: number;
  readonly made?: number;
  readonly reused?: number;
  readonly setAside?: string | undefined;
}

export interface PublishWorld {
  readonly rooms: () => Promise<Rooms>;
  readonly signal: AbortSignal;
  readonly told: (event: Progress) => void;
}

export async function publishFolder(
  { folder, releases, token, settings }: PublishJob,
  { rooms, signal, told }: PublishWorld,
): Promise<PublishEnd> {
  const store = folderStore(`${releases}/.store`);
  const { languages, editions, stage, unreviewed } = settings;
  const order = {
    bundle: folder,
    releases: store,
    folder: releases,
    signal,
    ...(languages !== undefined && { languages }),
    ...(editions !== undefined && { editions }),
    ...(stage !== undefined && { stage }),
    ...(unreviewed !== undefined && { unreviewed }),
  };
  const end = await publish(order, { rooms: await rooms(), token }, told);
  const { outcome, findings } = end;
  if (outcome === 'blocked') return { outcome, findings };
  const { manifest, made, reused, setAside } = end;
  const { pattern, version, stage: marked, copy } = manifest;
  const copied = {
    ...(marked !== undefined && { stage: marked }),
    ...(copy !== undefined && { copy }),
  };
  return { outcome, findings, pattern, version, ...copied, made, reused, setAside };
}

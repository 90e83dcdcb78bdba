/**
 * First step: from an upload to a bundle in safe form. Takes a reference to a folder or zip; unpacks it
 * under limits, validates it, keeps it by its content hash, or keeps the findings that block it.
 */
import { loadBundle } from '../../pattern/bundle/load.ts';
import { stopsAt } from '../../release/stage.ts';
import { keepBundle, keepFindings } from '../claims.ts';
import type { IntakeInput, IntakeOutput } from '../payloads.ts';
import type { Ports } from '../ports.ts';

export async function intake(input: IntakeInput, ports: Ports): Promise<IntakeOutput> {
  const { stage = 'sale' } = input.settings;
  const loaded = loadBundle(await ports.readBundle(input.source));
  await keepFindings(ports.work, input.run, loaded.findings);
  if (loaded.bundle === undefined || loaded.findings.some((each) => stopsAt(stage, each))) {
    return { outcome: 'blocked', bundle: '' };
  }
  await keepBundle(ports.work, loaded.bundle);
  return { outcome: 'readable', bundle: loaded.bundle.hash };
}

/**
 * The deployment as a program: `npm run synth` writes `cdk.out/` without a network, an account or keys.
 * Every construct is judged by two packs of rules; one that is broken without a reason given in
 * `acknowledge.ts` fails the synthesis.
 */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { App, Validations } from 'aws-cdk-lib';
import { CURRENTLY_RECOMMENDED_FLAGS } from 'aws-cdk-lib/cx-api';
import { AwsSolutionsChecks, ServerlessChecks } from 'cdk-nag';
import { CastoffStack } from './stack.ts';

export function buildApp(
  codeFolder: string,
  outdir?: string,
  told: Readonly<Record<string, string>> = {},
): App {
  const app = new App({
    context: { ...CURRENTLY_RECOMMENDED_FLAGS, ...told },
    ...(outdir !== undefined && { outdir }),
  });
  new CastoffStack(app, 'Castoff', { codeFolder });
  Validations.of(app).addPlugins(new AwsSolutionsChecks(app), new ServerlessChecks(app));
  return app;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const packed = fileURLToPath(new URL('dist/', import.meta.url));
  const sources = fileURLToPath(new URL('../functions/', import.meta.url));
  const isPacked = existsSync(packed);
  // The command of the CDK says where it wants to find what is written.
  const folder = process.env['CDK_OUTDIR'] ?? 'cdk.out';
  buildApp(isPacked ? packed : sources, folder).synth();
  console.log(
    `${folder}/ is written${isPacked ? '' : '; before deploying, pack with: npm run functions'}`,
  );
}

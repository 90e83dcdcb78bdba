/**
 * Step Functions on loopback, as far as the starter needs it: StartExecution over JSON 1.0, one run per
 * name for good, the same input again answered as before (API Reference, "StartExecution"). Each run is
 * the deployed definition, worked by handlers.
 */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { readDefinition } from '../../src/pipeline/machine/definition.ts';
import type { MachineEnd } from '../../src/pipeline/machine/run.ts';
import { runMachine } from '../../src/pipeline/machine/run.ts';
import definition from '../../src/pipeline/pipeline.asl.json' with { type: 'json' };

export type Work = (step: string, input: unknown) => Promise<unknown>;

export interface LoopbackMachines {
  readonly endpoint: string;
  /** How each run ended, by name, in order of start. */
  readonly runs: ReadonlyMap<string, Promise<MachineEnd>>;
  close(): Promise<void>;
}

interface StartRequest {
  readonly name: string;
  readonly input: string;
}

export async function startMachines(work: Work): Promise<LoopbackMachines> {
  const runs = new Map<string, Promise<MachineEnd>>();
  const inputs = new Map<string, string>();
  const machine = readDefinition(definition);

  const start = ({ name, input }: StartRequest): { status: number; body: object } => {
    const earlier = inputs.get(name);
    if (earlier !== undefined && earlier !== input) {
      return { status: 400, body: { __type: 'ExecutionAlreadyExists', message: name } };
    }
    if (earlier === undefined) {
      inputs.set(name, input);
      const host = {
        executionName: name,
        concurrency: 4,
        task: work,
        sleep: async () => undefined,
        random: () => 0,
      };
      runs.set(name, runMachine(machine, JSON.parse(input), host));
    }
    return { status: 200, body: { executionArn: `arn:${name}`, startDate: 0 } };
  };

  const server = createServer((request, response) => {
    void (async () => {
      const chunks: Buffer[] = [];
      for await (const chunk of request) chunks.push(chunk as Buffer);
      const isStart = request.headers['x-amz-target'] === 'AWSStepFunctions.StartExecution';
      const { status, body } = isStart
        ? start(JSON.parse(Buffer.concat(chunks).toString('utf8')) as StartRequest)
        : { status: 400, body: { __type: 'UnknownOperationException' } };
      response.writeHead(status, { 'content-type': 'application/x-amz-json-1.0' });
      response.end(JSON.stringify(body));
    })();
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  return {
    endpoint: `http://127.0.0.1:${port}`,
    runs,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

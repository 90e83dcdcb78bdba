/**
 * Step Functions on loopback, as far as we need it: StartExecution and StopExecution over JSON 1.0, one run
 * per name for good, the same input answered as before while it is at work, a stop that begins nothing further and leaves
 * a task at work alone (API Reference). Each run is the deployed definition, worked by handlers.
 */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { Fault } from '../../src/base/fault.ts';
import { readDefinition } from '../../src/pipeline/machine/definition.ts';
import type { MachineEnd } from '../../src/pipeline/machine/run.ts';
import { runMachine } from '../../src/pipeline/machine/run.ts';
import definition from '../../src/pipeline/pipeline.asl.json' with { type: 'json' };

export type Work = (step: string, input: unknown) => Promise<unknown>;

export interface LoopbackMachines {
  readonly endpoint: string;
  /** How each run ended, by name, in order of start; a stopped one has failed as `ABORTED`. */
  readonly runs: ReadonlyMap<string, Promise<MachineEnd>>;
  close(): Promise<void>;
}

interface Started {
  readonly input: string;
  readonly stop: AbortController;
  hasEnded: boolean;
}

interface Answer {
  readonly status: number;
  readonly body: object;
}

const refusal = (__type: string, message = ''): Answer => ({
  status: 400,
  body: { __type, message },
});

const MACHINE = /^arn:aws:states:[\w-]+:\d{12}:stateMachine:(\w+)$/;
const EXECUTION = /^arn:aws:states:[\w-]+:\d{12}:execution:\w+:([\w-]{1,80})$/;

export async function startMachines(work: Work): Promise<LoopbackMachines> {
  const runs = new Map<string, Promise<MachineEnd>>();
  const started = new Map<string, Started>();
  const machine = readDefinition(definition);

  const actions: Readonly<Record<string, (asked: Readonly<Record<string, string>>) => Answer>> = {
    StartExecution({ stateMachineArn = '', name = '', input = '' }) {
      if (!MACHINE.test(stateMachineArn)) return refusal('InvalidArn', stateMachineArn);
      const earlier = started.get(name);
      if (earlier && (earlier.hasEnded || earlier.input !== input)) {
        return refusal('ExecutionAlreadyExists', name);
      }
      if (!earlier) {
        const stop = new AbortController();
        const execution = { input, stop, hasEnded: false };
        started.set(name, execution);
        const host = {
          executionName: name,
          concurrency: 4,
          signal: stop.signal,
          task: work,
          sleep: async () => undefined,
          random: () => 0,
        };
        const end = runMachine(machine, JSON.parse(input), host).catch(abortedEnd);
        runs.set(
          name,
          end.finally(() => {
            execution.hasEnded = true;
          }),
        );
      }
      const executionArn = `${stateMachineArn.replace('stateMachine', 'execution')}:${name}`;
      return { status: 200, body: { executionArn, startDate: 0 } };
    },
    StopExecution({ executionArn = '' }) {
      const name = EXECUTION.exec(executionArn)?.[1];
      if (name === undefined) return refusal('InvalidArn', executionArn);
      const execution = started.get(name);
      if (!execution) return refusal('ExecutionDoesNotExist', executionArn);
      execution.stop.abort();
      return { status: 200, body: { stopDate: 0 } };
    },
  };

  const server = createServer((request, response) => {
    void (async () => {
      const chunks: Buffer[] = [];
      for await (const chunk of request) chunks.push(chunk as Buffer);
      const target = String(request.headers['x-amz-target']).replace('AWSStepFunctions.', '');
      const asked = JSON.parse(Buffer.concat(chunks).toString('utf8')) as Record<string, string>;
      const { status, body } = actions[target]?.(asked) ?? refusal('UnknownOperationException');
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

function abortedEnd(error: unknown): MachineEnd {
  if (!(error instanceof Fault && error.kind === 'cancelled')) throw error;
  return { status: 'failed', error: 'ABORTED', cause: '', thrown: error };
}

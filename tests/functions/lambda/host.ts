/**
 * Runs a packed function in a process of its own behind a runtime API on loopback, so that a fault of
 * packing (a missing font, a package left out) shows before it is deployed. Errors come back as the state
 * machine of AWS would see them.
 */
import type { ChildProcess } from 'node:child_process';
import { spawn } from 'node:child_process';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';

const BOOTSTRAP = fileURLToPath(new URL('bootstrap.mjs', import.meta.url));

const LONGEST_CALL_MILLISECONDS = 15 * 60_000;

interface Waiting {
  readonly event: unknown;
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: Error) => void;
}

interface ToldError {
  readonly errorType: string;
  readonly errorMessage: string;
}

export interface LambdaHost {
  invoke(event: unknown): Promise<unknown>;
  close(): void;
}

/** The process starts with the first event; it sees this environment and nothing else. */
export async function startLambda(
  folder: string,
  environment: Readonly<Record<string, string>>,
): Promise<LambdaHost> {
  const queue: Waiting[] = [];
  const running = new Map<string, Waiting>();
  let asking: ServerResponse | undefined;
  let child: ChildProcess | undefined;
  let log = '';

  const give = (): void => {
    const [waiting] = queue;
    if (!asking || !waiting) return;
    queue.shift();
    const id = String(running.size + 1);
    running.set(id, waiting);
    asking.writeHead(200, { 'lambda-runtime-aws-request-id': id });
    asking.end(JSON.stringify(waiting.event));
    asking = undefined;
  };

  const failAll = (reason: string): void => {
    for (const { reject } of [...queue.splice(0), ...running.values()]) {
      reject(Object.assign(new Error(`${reason}\n${log}`), { name: 'Runtime.ExitError' }));
    }
  };

  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const [, id = '', end] = /invocation\/(\w+)\/?(\w*)$/.exec(request.url ?? '') ?? [];
    if (request.method === 'GET' && id === 'next') {
      asking = response;
      give();
      return;
    }
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk as Buffer);
    const value = JSON.parse(Buffer.concat(chunks).toString('utf8')) as unknown;
    response.writeHead(202).end();
    if (end === 'response') running.get(id)?.resolve(value);
    else if (end === 'error') running.get(id)?.reject(asError(value as ToldError));
    else failAll(JSON.stringify(value));
  };

  const server = createServer((request, response) => void answer(request, response));
  // A call may take longer than a kept connection is kept, and an answer must not find it gone.
  server.keepAliveTimeout = LONGEST_CALL_MILLISECONDS;
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;

  const start = (): ChildProcess => {
    const started = spawn(process.execPath, [BOOTSTRAP], {
      env: {
        PATH: process.env['PATH'] ?? '',
        ...environment,
        AWS_LAMBDA_RUNTIME_API: `127.0.0.1:${port}`,
        LAMBDA_TASK_ROOT: folder,
        _HANDLER: 'handler.handler',
      },
      cwd: folder,
    });
    for (const stream of [started.stdout, started.stderr]) {
      stream.on('data', (chunk: Buffer) => (log = (log + chunk.toString('utf8')).slice(-4000)));
    }
    started.on('exit', (code) => failAll(`the function ended with ${code}`));
    return started;
  };

  return {
    invoke: (event) =>
      new Promise((resolve, reject) => {
        child ??= start();
        queue.push({ event, resolve, reject });
        give();
      }),
    close: () => {
      child?.removeAllListeners('exit');
      child?.kill();
      server.closeAllConnections();
      server.close();
    },
  };
}

/** As Step Functions sees it: the type as the error's name, the record as its cause. */
const asError = (told: ToldError): Error =>
  Object.assign(new Error(JSON.stringify(told)), { name: told.errorType });

/**
 * A topic of SNS on loopback, as far as a publisher sees it: the Publish action of the query protocol (API
 * Reference, "Publish"). Keeps what was told.
 */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface Told {
  readonly subject: string;
  readonly message: unknown;
  /** `studio ada`, `outcome released`. */
  readonly attributes: readonly string[];
}

export interface LoopbackTopic {
  readonly endpoint: string;
  readonly told: Told[];
  close(): Promise<void>;
}

export async function startTopic(): Promise<LoopbackTopic> {
  const told: Told[] = [];
  const server = createServer((request, response) => {
    void (async () => {
      const chunks: Buffer[] = [];
      for await (const chunk of request) chunks.push(chunk as Buffer);
      const form = new URLSearchParams(Buffer.concat(chunks).toString('utf8'));
      told.push({
        subject: form.get('Subject') ?? '',
        message: JSON.parse(form.get('Message') ?? 'null'),
        attributes: attributesOf(form),
      });
      response.writeHead(200, { 'content-type': 'text/xml' });
      response.end(
        '<PublishResponse xmlns="http://sns.amazonaws.com/doc/2010-03-31/"><PublishResult><MessageId>1</MessageId></PublishResult><ResponseMetadata><RequestId>1</RequestId></ResponseMetadata></PublishResponse>',
      );
    })();
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  return {
    endpoint: `http://127.0.0.1:${port}`,
    told,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

function attributesOf(form: URLSearchParams): readonly string[] {
  const at = (each: number) => `MessageAttributes.entry.${each}`;
  const found: string[] = [];
  for (let each = 1; form.has(`${at(each)}.Name`); each += 1) {
    found.push(`${form.get(`${at(each)}.Name`)} ${form.get(`${at(each)}.Value.StringValue`)}`);
  }
  return found.sort();
}

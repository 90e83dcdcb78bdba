/**
 * What Lambda's Node runtime does, in little: loads the handler of a packed function, then asks the
 * runtime API for events one by one and answers each (AWS Lambda Developer Guide, "Runtime API").
 */
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const api = `http://${process.env.AWS_LAMBDA_RUNTIME_API}/2018-06-01/runtime`;
const [file, name] = process.env._HANDLER.split('.');
const post = (url, value) => fetch(url, { method: 'POST', body: JSON.stringify(value ?? null) });
const told = (error) => ({
  errorType: error.name,
  errorMessage: error.message,
  trace: (error.stack ?? '').split('\n'),
});

/** There is no network here: what lies outside is asked for on loopback. */
const { OUTSIDE } = process.env;
const fetchHere = globalThis.fetch;
if (OUTSIDE !== undefined)
  globalThis.fetch = (address, how = {}) => {
    const { href } = new URL(address);
    if (href.startsWith('http://127.0.0.1:')) return fetchHere(href, how);
    const headers = new Headers(how.headers);
    headers.set('x-asked-for', href);
    return fetchHere(OUTSIDE, { ...how, headers });
  };

let handler;
try {
  const module = pathToFileURL(path.join(process.env.LAMBDA_TASK_ROOT, `${file}.mjs`)).href;
  handler = (await import(module))[name];
} catch (error) {
  await post(`${api}/init/error`, told(error));
  process.exit(1);
}
for (;;) {
  const next = await fetch(`${api}/invocation/next`);
  const id = next.headers.get('lambda-runtime-aws-request-id');
  try {
    await post(`${api}/invocation/${id}/response`, await handler(await next.json(), {}));
  } catch (error) {
    await post(`${api}/invocation/${id}/error`, told(error));
  }
}

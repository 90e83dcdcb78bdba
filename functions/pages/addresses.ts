/**
 * Every address of the pages in the cloud. The gateway deploys from this list and the handler must serve
 * all of it. None stands behind the gateway's authoriser, which reads a token from a header alone and
 * answers in JSON: the pages look at their own cookie, and lead whoever has none to the issuer.
 */
export const ADDRESSES = [
  'GET /',
  'GET /desk.css',
  'GET /desk.js',
  'GET /hand-in.js',
  'GET /cloud.js',
  'GET /sign-in',
  'GET /sign-in/back',
  'POST /language',
  'POST /sign-out',
  'POST /hand-in',
  'GET /handed-in/{upload}',
  'GET /progress/{run}',
  'GET /patterns/{pattern}',
  'GET /patterns/{pattern}/{version}',
  'GET /files/{pattern}/{version}/{path+}',
] as const;

export type Address = (typeof ADDRESSES)[number];

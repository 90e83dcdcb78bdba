/**
 * The routes of the pages at the gateway. The sign-in has routes of its own, so that a flood there has its
 * own bounds; everything else that no route of the API takes is a page of the desk, whose addresses stand
 * in one table (`src/desk/routes.ts`). None is behind the gateway's authoriser, which reads a token from a
 * header alone and answers in JSON: the pages look at their own cookie.
 */
export const ADDRESSES = [
  'GET /sign-in',
  'GET /sign-in/back',
  'GET /',
  'GET /{page+}',
  'POST /{page+}',
] as const;

export type Address = (typeof ADDRESSES)[number];

/**
 * The language of the desk that somebody chose on a page: kept in a cookie for a year, and told before
 * those that the browser asks for. It is a wish of the reader and no secret; the guard never looks at it.
 */
import { type Answer, type Call, seeOther } from './answer.ts';

const NAME = 'desk-language';
const YEAR_SECONDS = 31_536_000;

/** From the heads of a request: the language that was chosen, or nothing. */
export function chosenLanguage(cookie = ''): readonly string[] {
  const found = new RegExp(`(?:^|; ?)${NAME}=([A-Za-z-]{2,20})(?:;|$)`).exec(cookie);
  return found?.[1] === undefined ? [] : [found[1]];
}

/** What a browser asks for (`Accept-Language`), in its order; weights are not read. */
export const askedLanguages = (header = ''): readonly string[] =>
  header
    .slice(0, 200)
    .split(',')
    .map((each) => (each.split(';')[0] ?? '').trim())
    .filter((each) => each !== '');

/**
 * Keeps the choice and goes back to where it was made; where that page only answered a form, to the
 * nearest page above it. `isPage`: whether a path can be opened by its address.
 */
export function rememberLanguage(
  { from = '/' }: Pick<Call, 'from'>,
  language: string,
  isPage: (path: string) => boolean,
): Answer {
  const cookie = `${NAME}=${language}; HttpOnly; SameSite=Strict; Path=/; Max-Age=${YEAR_SECONDS}`;
  let [place = '/'] = from.split('?');
  if (isPage(place)) return seeOther(from, { 'set-cookie': cookie });
  while (place !== '/' && !isPage(place)) place = place.slice(0, place.lastIndexOf('/')) || '/';
  return seeOther(place, { 'set-cookie': cookie });
}

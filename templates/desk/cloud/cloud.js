/**
 * A run that is at work is looked at again every few seconds, more seldom the longer it takes. Only what
 * changed is put in place, so that a screen reader tells of nothing twice.
 */
const place = document.querySelector('[data-watch]');
const LONGEST_SECONDS = 15;

async function look(seconds) {
  await new Promise((resolve) => setTimeout(resolve, seconds * 1000));
  const later = Math.min(LONGEST_SECONDS, seconds * 1.2);
  try {
    const answer = await fetch(location.href);
    const text = await answer.text();
    const next = new DOMParser().parseFromString(text, 'text/html').querySelector('[data-watch]');
    const moved = answer.redirected || (answer.ok && !next);
    if (moved) return location.assign(answer.url);
    if (next && next.innerHTML !== place.innerHTML) place.replaceChildren(...next.childNodes);
  } catch {
    // Out of reach for now, or signed out meanwhile: a person who loads the page again is led in.
  }
  return look(later);
}

if (place) void look(2);

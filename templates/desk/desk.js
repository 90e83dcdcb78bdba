/**
 * What a page can do beyond forms and links: hear a run, fetch the slow part of a page,
 * copy a text. Everything works without it, more slowly.
 */
const said = (text) => {
  const place = document.getElementById('said');
  if (place) place.textContent = text;
};

/** What was typed and not written goes back into its field, where that came after the page. */
function returnTyped(place) {
  const typed = document.getElementById('typed');
  for (const form of typed ? place.querySelectorAll('form.field') : []) {
    const { file, pointer, value } = form.elements;
    if (file?.value !== typed.dataset.file || pointer?.value !== typed.dataset.pointer) continue;
    value.value = typed.value;
    value.focus();
  }
}

/** Numbers that no check holds are marked in the tables of the page, one cell for each size. */
function markLoose(place) {
  for (const { dataset } of place.querySelectorAll('[data-loose]'))
    for (const cell of document.querySelectorAll(
      `tr[data-at="${CSS.escape(dataset.loose)}"] > td[data-size]`,
    )) {
      if (dataset.size !== '' && dataset.size !== cell.dataset.size) continue;
      cell.classList.add('loose');
      const words = document.createElement('span');
      words.className = 'unseen';
      words.textContent = ` ${dataset.words}`;
      cell.append(words);
    }
}

/** A choice inside a part brings that part again, and leaves the page as it is. */
function askAgain(place) {
  for (const form of place.querySelectorAll('form[method=get]'))
    form.addEventListener('submit', async (event) => {
      event.preventDefault();
      place.dataset.part = `${form.getAttribute('action')}?${new URLSearchParams(new FormData(form))}`;
      await fill(place);
      place.querySelector('select')?.focus();
    });
}

/** What waits stands as what will come, so that nothing moves. */
function paragraph(text) {
  const made = document.createElement('p');
  made.textContent = text;
  return made;
}

async function fill(place) {
  const link = place.innerHTML;
  if (!('keep' in place.dataset)) place.replaceChildren(paragraph(place.dataset.wait));
  try {
    const answer = await fetch(place.dataset.part);
    if (!answer.ok) throw new Error(answer.statusText);
    const part = new DOMParser().parseFromString(await answer.text(), 'text/html');
    place.replaceChildren(...(part.getElementById('part') ?? part.body).childNodes);
    returnTyped(place);
    markLoose(place);
    askAgain(place);
  } catch {
    place.innerHTML = link;
  }
}

/** The slow parts of a page come by themselves, or where they are very slow when they are asked for. */
for (const place of document.querySelectorAll('[data-part]')) {
  if (!('later' in place.dataset)) void fill(place);
  else
    place.addEventListener(
      'click',
      (event) => {
        event.preventDefault();
        said(place.dataset.wait);
        // The link that was pressed is gone; reading goes on with what came in its place.
        place.tabIndex = -1;
        void fill(place).then(() => place.focus());
      },
      { once: true },
    );
}

/** Languages asked for at once. */
const AT_ONCE = 3;

/** One part for each language, a few at a time; each shows what it says when it comes. */
async function fillInTurns(place) {
  const link = place.innerHTML;
  const { turns, of, wait, clear, others } = place.dataset;
  const tags = turns.split('|');
  const told = document.createElement('p');
  const parts = new Map(tags.map((tag) => [tag, document.createElement('div')]));
  const spoken = [];
  const tell = (done) =>
    (told.textContent = wait.replace('{done}', done).replace('{all}', tags.length));
  tell(0);
  place.replaceChildren(told, ...parts.values());
  const waiting = [...tags];
  let done = 0;
  const work = async () => {
    for (let tag = waiting.shift(); tag !== undefined; tag = waiting.shift()) {
      const answer = await fetch(`${of}?of=${encodeURIComponent(tag)}`);
      if (!answer.ok) throw new Error(answer.statusText);
      const page = new DOMParser().parseFromString(await answer.text(), 'text/html');
      const part = page.getElementById('part');
      if (part.querySelector('[data-none]')) spoken.push(tag);
      else parts.get(tag).replaceChildren(...part.childNodes);
      returnTyped(parts.get(tag));
      tell((done += 1));
    }
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, work));
    const listed = new Intl.ListFormat(document.documentElement.lang).format(
      tags.filter((tag) => spoken.includes(tag)),
    );
    // Only the end of it is said aloud.
    told.setAttribute('role', 'status');
    told.textContent = (spoken.length === tags.length ? clear : others).replace('{spoken}', listed);
    told.className = spoken.length === tags.length ? 'clear' : 'facts';
    told.hidden = spoken.length === 0;
  } catch {
    place.innerHTML = link;
  }
}
for (const place of document.querySelectorAll('[data-turns]')) void fillInTurns(place);

const pairsOf = (text) => new Map(text.split('|').map((each) => each.split('=')));

/** A run as it goes on: a line for each thing it is at, and the last of them said aloud. */
for (const box of document.querySelectorAll('[data-run]')) {
  const [words, names] = [pairsOf(box.dataset.words), pairsOf(box.dataset.names)];
  const list = box.querySelector('ol');
  const told = box.querySelector('[data-told]');
  const lines = new Map();
  const source = new EventSource(`/runs/${box.dataset.run}/events`);
  source.addEventListener('progress', (event) => {
    const { step, state, language = '', edition = '', picture = '' } = JSON.parse(event.data);
    const kind = edition === 'standard' ? '' : edition;
    const what = [names.get(language) ?? language, kind, picture].filter(Boolean).join(' ');
    const key = `${step} ${what}`;
    const line = lines.get(key) ?? document.createElement('li');
    line.className = state;
    line.textContent = `${words.get(step) ?? step} ${what} · ${words.get(state) ?? state}`;
    if (!lines.has(key)) list.append(line);
    lines.set(key, line);
  });
  // A screen reader is told now and then, not of every page.
  const telling = setInterval(
    () => (told.textContent = list.lastElementChild?.textContent ?? ''),
    5000,
  );
  // A desk that was closed does not come back under this address: the page says how to open it again.
  source.addEventListener('error', () => {
    if (source.readyState === EventSource.CLOSED) location.reload();
  });
  source.addEventListener('end', ({ data }) => {
    clearInterval(telling);
    source.close();
    const { state, version, stage } = JSON.parse(data);
    // What was made stands further down than what could be made next.
    const made = stage === undefined ? `#version-${version}` : '#copies';
    location.replace(`?ended=${box.dataset.run}${state === 'released' ? made : ''}`);
  });
}

/** What is being made elsewhere is asked for until it is there; then the browser takes it. */
const AGAIN = 3000;

async function awaitThere(place) {
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve, AGAIN));
    // Somebody who looks elsewhere waits for nothing.
    if (document.hidden) continue;
    const answer = await fetch(place.dataset.awaited, { redirect: 'manual' }).catch(
      () => undefined,
    );
    if (answer?.status === 202) continue;
    if (answer?.type !== 'opaqueredirect') return (place.textContent = place.dataset.lost);
    place.textContent = place.dataset.there;
    return location.assign(place.dataset.awaited);
  }
}
for (const place of document.querySelectorAll('[data-awaited]')) void awaitThere(place);

for (const button of document.querySelectorAll('[data-copy]')) {
  button.hidden = false;
  button.addEventListener('click', async () => {
    await navigator.clipboard.writeText(document.getElementById(button.dataset.copy).textContent);
    said(button.dataset.said);
    button.textContent = button.dataset.said;
  });
}

/** A choice that says nothing unless another one is made waits out of sight. */
for (const part of document.querySelectorAll('[data-only]')) {
  const [name, value] = part.dataset.only.split('=');
  const field = part.closest('form').elements[name];
  const follow = () => (part.hidden = field.value !== value);
  part.closest('form').addEventListener('change', follow);
  follow();
}

/**
 * Where a number is used, beside the number under the pointer. The same list opens under its name with
 * the keyboard; Escape sends it away, and the pointer may go onto it.
 */
const hint = document.createElement('div');
hint.className = 'hint';
hint.hidden = true;
let leaving;
const hideHint = () => (hint.hidden = true);
const keepHint = () => clearTimeout(leaving);
const leaveHint = () => {
  keepHint();
  leaving = setTimeout(hideHint, 250);
};
hint.addEventListener('pointerenter', keepHint);
hint.addEventListener('pointerleave', leaveHint);
addEventListener('keydown', ({ key, target }) => {
  if (key !== 'Escape') return;
  hideHint();
  // A note that was opened beside a number closes again; what was typed in it stays.
  const note = target.closest('.uses[open], .change[open]');
  if (!note) return;
  note.open = false;
  note.querySelector('summary').focus();
});
addEventListener('scroll', hideHint, { passive: true, capture: true });

function showHint(cell, list) {
  keepHint();
  hint.replaceChildren(list.cloneNode(true));
  hint.hidden = false;
  const { left, bottom } = cell.getBoundingClientRect();
  const room = document.documentElement.clientWidth - hint.offsetWidth - 8;
  hint.style.left = `${Math.max(8, Math.min(left, room))}px`;
  const below = innerHeight - bottom > hint.offsetHeight + 8;
  hint.style.top = `${below ? bottom : cell.getBoundingClientRect().top - hint.offsetHeight}px`;
}

for (const list of document.querySelectorAll('.uses ul')) {
  if (!hint.isConnected) document.body.append(hint);
  let row = list.closest('tr');
  let left = row.querySelector('th').rowSpan;
  for (; row && left > 0; left -= 1, row = row.nextElementSibling)
    for (const cell of row.querySelectorAll('td')) {
      cell.addEventListener('pointerenter', ({ pointerType }) => {
        if (pointerType === 'mouse') showHint(cell, list);
      });
      cell.addEventListener('pointerleave', leaveHint);
    }
}

/** A table that fits its box needs no stop of the Tab key, and its sizes may stay in sight. */
const boxes = new ResizeObserver((entries) => {
  // All are measured before any is changed: the page is laid out once, however many tables it has.
  const measured = entries.map(({ target }) => [target, target.scrollWidth <= target.clientWidth]);
  for (const [target, fits] of measured) {
    target.classList.toggle('fits', fits);
    if (!fits) target.tabIndex = 0;
    else if (document.activeElement !== target) target.removeAttribute('tabindex');
  }
});
for (const box of document.querySelectorAll('.wide')) boxes.observe(box);

/**
 * After a change the page comes anew. The focus goes on where the work was: to the finding or the number
 * that was changed, or to what has moved up into its place; where nothing is left, to what is said of it.
 */
const WORK = 'place-of-work';
for (const form of document.querySelectorAll('form.field'))
  form.addEventListener('submit', () => {
    const at = form.closest('article[id], tr[id]');
    if (!at) return;
    const all = [...document.querySelectorAll(`${at.localName}[id]`)].map(({ id }) => id);
    const ids = all.slice(all.indexOf(at.id));
    sessionStorage.setItem(WORK, JSON.stringify({ path: location.pathname, ids }));
  });

function returnToWork() {
  const { path, ids = [] } = JSON.parse(sessionStorage.getItem(WORK) ?? '{}');
  sessionStorage.removeItem(WORK);
  const done = document.querySelector('.done');
  if (!done) return;
  const left = path === location.pathname ? ids.map((id) => document.getElementById(id)) : [];
  const place = left.find((each) => each)?.querySelector('h3, .change summary');
  done.tabIndex = -1;
  (place ?? done).focus({ preventScroll: true });
  place?.scrollIntoView({ block: 'center' });
  // Words that were there from the beginning are not told; put in anew, they are.
  setTimeout(() => done.replaceChildren(done.textContent), 300);
}
returnToWork();

/** Where a field does not grow by itself, it is made as high as its text. */
if (!CSS.supports('field-sizing', 'content'))
  for (const field of document.querySelectorAll('textarea'))
    field.rows = Math.min(8, Math.ceil(field.value.length / 44) || 1);

if (document.querySelector('[data-send], [data-drop]')) await import('/hand-in.js');
if (document.querySelector('[data-pdf]')) await import('/pages.js');

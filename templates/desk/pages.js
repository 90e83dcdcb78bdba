/**
 * Draws documents page by page, each page when it comes near the window and no sooner, and lets those
 * go again that are far away, so that a long document stays light. Takes places with `data-pdf`;
 * `data-leaves` says how many pages are wanted at most.
 */
import { getDocument, GlobalWorkerOptions } from '/reader/pdf.mjs';

GlobalWorkerOptions.workerSrc = '/reader/pdf.worker.mjs';

/** Pages that stay drawn at once. */
const DRAWN = 10;
const SHARPEST = 2;
const drawn = new Set();

const near = new IntersectionObserver(
  (entries) => {
    for (const { target, isIntersecting } of entries) {
      target.leaf.near = isIntersecting;
      if (isIntersecting) void draw(target.leaf);
    }
  },
  { rootMargin: '50% 0px' },
);

async function draw(leaf) {
  drawn.delete(leaf);
  drawn.add(leaf);
  const width = Math.round(leaf.canvas.clientWidth * Math.min(devicePixelRatio, SHARPEST));
  if (leaf.width === width || width === 0) return;
  leaf.width = width;
  const page = await leaf.document.getPage(leaf.number);
  const viewport = page.getViewport({ scale: width / page.getViewport({ scale: 1 }).width });
  // Drawn aside and put in place whole: a page never flickers.
  const aside = document.createElement('canvas');
  [aside.width, aside.height] = [Math.round(viewport.width), Math.round(viewport.height)];
  await page.render({ canvas: aside, viewport }).promise;
  page.cleanup();
  if (leaf.width !== width) return;
  [leaf.canvas.width, leaf.canvas.height] = [aside.width, aside.height];
  leaf.canvas.getContext('2d').drawImage(aside, 0, 0);
  leaf.canvas.classList.add('drawn');
  for (const old of drawn) {
    if (drawn.size <= DRAWN) break;
    if (old.near) continue;
    drawn.delete(old);
    old.width = 0;
    [old.canvas.width, old.canvas.height] = [1, 1];
    old.canvas.classList.remove('drawn');
  }
}

function leafOf(place, pdf, number, { width, height }) {
  const words = place.dataset.page.replace('{page}', number).replace('{pages}', pdf.numPages);
  const figure = document.createElement('figure');
  const link = document.createElement('a');
  link.href = `${place.dataset.pdf}#page=${number}`;
  link.target = '_blank';
  link.rel = 'noopener';
  link.setAttribute('aria-label', words);
  const canvas = document.createElement('canvas');
  canvas.style.aspectRatio = `${width} / ${height}`;
  canvas.setAttribute('aria-hidden', 'true');
  link.append(canvas);
  const caption = document.createElement('figcaption');
  caption.textContent = `${number} / ${pdf.numPages}`;
  caption.setAttribute('aria-hidden', 'true');
  figure.append(link, caption);
  canvas.leaf = { canvas, document: pdf, number, width: 0, near: false };
  near.observe(canvas);
  return figure;
}

async function show(place) {
  const answer = await fetch(place.dataset.pdf);
  if (!answer.ok) {
    const told = new DOMParser().parseFromString(await answer.text(), 'text/html');
    throw new Error(told.querySelector('.lead')?.textContent ?? answer.statusText);
  }
  const data = new Uint8Array(await answer.arrayBuffer());
  const pdf = await getDocument({ data, useWasm: false }).promise;
  const { width, height } = (await pdf.getPage(1)).getViewport({ scale: 1 });
  const leaves = Math.min(pdf.numPages, Number(place.dataset.leaves ?? pdf.numPages));
  const all = Array.from({ length: leaves }, (_, at) =>
    leafOf(place, pdf, at + 1, { width, height }),
  );
  place.replaceChildren(...all);
}

async function open(place) {
  const wait = document.createElement('p');
  wait.textContent = place.dataset.wait ?? '';
  place.replaceChildren(wait);
  try {
    await show(place);
  } catch (error) {
    wait.textContent = `${place.dataset.failed ?? ''} ${error.message}`;
    wait.className = 'open';
    place.replaceChildren(wait);
  }
}

/** A document is fetched when its place comes near, one after the other in each place. */
const wanted = new IntersectionObserver(
  (entries) => {
    for (const { target, isIntersecting } of entries) {
      if (!isIntersecting) continue;
      wanted.unobserve(target);
      void open(target);
    }
  },
  { rootMargin: '30% 0px' },
);
for (const place of document.querySelectorAll('[data-pdf]')) wanted.observe(place);

let settled;
addEventListener('resize', () => {
  clearTimeout(settled);
  settled = setTimeout(() => {
    // Drawing puts a leaf at the end of the list, so that the near ones are taken out of it first.
    const seen = [...drawn].filter((leaf) => leaf.near);
    for (const leaf of seen) void draw(leaf);
  }, 200);
});

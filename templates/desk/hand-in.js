/**
 * Hands files in: dropped or chosen, a zip or a folder with its paths. Looks at each file before
 * anything is sent, so that nobody waits for what will be refused, and keeps what was chosen where the
 * desk says no or the connection breaks off. Without it forms are sent as they are, and the desk looks.
 */
const MEGABYTE = 1024 * 1024;

const wordsFor = (text, values) => text.replace(/\{(\w+)\}/g, (slot, name) => values[name] ?? slot);

/** The endings in a list such as that of `accept`. */
const endingsIn = (list = '') => list.split(',').filter((each) => each.startsWith('.'));

const endsLike = (file, endings) => endings.some((end) => file.name.toLowerCase().endsWith(end));

/** Names of files, each with its path inside a folder. */
const pathOf = (file) => file.inFolder ?? (file.webkitRelativePath || file.name);

function refusalOf(field, files) {
  const { most, large, kind, one } = field.form.dataset;
  const endings = endingsIn(field.accept);
  if (!field.multiple && files.length > 1) return one;
  for (const file of files) {
    if (endings.length > 0 && !endsLike(file, endings))
      return wordsFor(kind, { name: file.name, kinds: endings.join(', ') });
    if (most !== undefined && file.size > Number(most))
      return wordsFor(large, {
        name: pathOf(file),
        size: Math.ceil(file.size / MEGABYTE),
        most: Math.floor(Number(most) / MEGABYTE),
      });
  }
  return '';
}

function tell(form, text, { busy = false } = {}) {
  const told = form.querySelector('[data-told]');
  told.className = busy ? 'facts' : 'open';
  told.textContent = text;
  for (const button of form.querySelectorAll('button')) button.disabled = busy;
}

/** What a page of refusal says, in one line. */
async function saidBy(answer) {
  const said = new DOMParser().parseFromString(await answer.text(), 'text/html');
  const parts = [...said.querySelectorAll('main .lead, main code, main .remedy')];
  return parts.map(({ textContent }) => textContent).join(' ') || answer.statusText;
}

async function send(form, files) {
  const body = new FormData();
  for (const file of files)
    body.append(form.querySelector('input[type=file]').name, file, pathOf(file));
  tell(form, form.dataset.wait, { busy: true });
  try {
    const answer = await fetch(form.action, { method: 'POST', body });
    if (answer.redirected) location.assign(answer.url);
    else tell(form, await saidBy(answer));
  } catch {
    tell(form, form.dataset.lost);
  }
}

/** Straight to where the file is kept: its permission is short, so that a fresh one is asked for first. */
async function sendElsewhere(form) {
  tell(form, form.dataset.wait, { busy: true });
  try {
    const answer = await fetch(form.dataset.renew, { redirect: 'manual' });
    // Signed out meanwhile: the page itself leads to the sign-in.
    if (!answer.ok) return location.reload();
    const { url, fields } = await answer.json();
    form.action = url;
    for (const [name, value] of Object.entries(fields)) form.elements[name].value = value;
    form.submit();
  } catch {
    tell(form, form.dataset.lost);
  }
}

for (const form of document.querySelectorAll('form[data-send]')) {
  const field = form.querySelector('input[type=file]');
  const look = () => tell(form, refusalOf(field, field.files));
  field.addEventListener('change', look);
  // Somebody quick, or a browser that went back, has chosen already.
  if (field.files.length > 0) look();
  form.addEventListener('submit', (event) => {
    const refusal = refusalOf(field, field.files);
    // What such a file brings is a page of its own, which the browser is to show.
    const [file] = field.files;
    const leads = file !== undefined && endsLike(file, endingsIn(form.dataset.leads));
    const stays = 'stay' in form.dataset && !leads;
    if (refusal === '' && !stays && !('renew' in form.dataset)) return;
    event.preventDefault();
    if (refusal !== '') tell(form, refusal);
    else if ('renew' in form.dataset) void sendElsewhere(form);
    else void send(form, [...field.files]);
  });
}

/** Where only a zip may be sent, a folder becomes one here; photographs do not become smaller. */
async function packed(files) {
  const { zipSync } = await import('/zip.mjs');
  const inside = {};
  for (const file of files) inside[pathOf(file)] = new Uint8Array(await file.arrayBuffer());
  const name = pathOf(files[0]).split('/')[0];
  return new File([zipSync(inside, { level: 0 })], `${name}.zip`, { type: 'application/zip' });
}

/** Puts the zip into the field of the form, as if it had been chosen, and sends it. */
async function sendPacked(form, files) {
  tell(form, form.dataset.wait, { busy: true });
  const chosen = new DataTransfer();
  chosen.items.add(await packed(files));
  tell(form, '');
  form.elements.file.files = chosen.files;
  form.requestSubmit();
}

for (const place of document.querySelectorAll('[data-packs]')) {
  const field = place.querySelector('input');
  place.hidden = false;
  field.addEventListener('change', () => {
    if (field.files.length > 0) void sendPacked(field.form, [...field.files]);
  });
}

/** Every file below what was dropped, with its path from there. */
async function filesIn(entry, path = '') {
  const inFolder = path + entry.name;
  if (entry.isFile) {
    const file = await new Promise((resolve, reject) => entry.file(resolve, reject));
    return [Object.assign(file, { inFolder })];
  }
  const reader = entry.createReader();
  const found = [];
  // A reader gives a hundred entries at a time, and none when it is done.
  for (;;) {
    const some = await new Promise((resolve, reject) => reader.readEntries(resolve, reject));
    if (some.length === 0) return found;
    for (const each of some) found.push(...(await filesIn(each, `${inFolder}/`)));
  }
}

/** Of several forms the one that takes such a file; else the first, which says what it takes. */
function fieldFor(box, file) {
  const fields = [...box.querySelectorAll('form[data-send] > div > input[type=file]')];
  return fields.find(({ accept }) => file && endsLike(file, endingsIn(accept))) ?? fields[0];
}

for (const box of document.querySelectorAll('[data-drop]')) {
  const over = (on) => (event) => {
    event.preventDefault();
    box.classList.toggle('over', on);
  };
  box.addEventListener('dragover', over(true));
  box.addEventListener('dragleave', over(false));
  box.addEventListener('drop', (event) => {
    over(false)(event);
    const [entry] = [...event.dataTransfer.items].map((each) => each.webkitGetAsEntry?.());
    const folder = box.querySelector('form[data-folder]');
    const packs = box.querySelector('[data-packs] input');
    if (entry?.isDirectory && packs) {
      void filesIn(entry).then((files) => sendPacked(packs.form, files));
      return;
    }
    if (entry?.isDirectory && folder) {
      void filesIn(entry).then((files) => {
        const refusal = refusalOf(folder.querySelector('input[type=file]'), files);
        if (refusal === '') void send(folder, files);
        else tell(folder, refusal);
      });
      return;
    }
    const field = fieldFor(box, event.dataTransfer.files[0]);
    field.files = event.dataTransfer.files;
    field.form.requestSubmit();
  });
}

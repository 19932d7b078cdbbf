// The book between phones: only what is lacking, several files at once, under a passphrase; photographs apart; what no
// file should be; a damaged store; a phone taken off the book.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { disclose, enclose } from './envelope.mjs';
import { addPlace, eventually, follow, go, press, room, startBook, title } from './hand.mjs';
import { axe, close, home, open, phoneTest, picture } from './harness.mjs';

// As in core/src/limits.rs.
const FILES_MAX = 50;
const PASSPHRASE = 'moss, gravel and a tall jug';
const told = (page, words) => page.getByText(words).first().waitFor();

async function toFiles(page) {
  await go(page, '#/book/files');
  await title(page, 'Hand over, take in');
}

const chosen = (page, ...files) => page.locator('input[type=file]').setInputFiles(files);
const file = (text, name = 'book.txt') => ({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });

async function saved(page) {
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save as a file')]);
  return { name: download.suggestedFilename(), text: await readFile(await download.path(), 'utf8') };
}

async function handOver(page) {
  await toFiles(page);
  return (await saved(page)).text;
}

async function takeIn(page, ...files) {
  await toFiles(page);
  await chosen(page, ...files);
  await press(page, 'Take it in');
  await title(page, 'Round');
}

/** A second phone with the book of the first. */
async function joined(text, options = {}) {
  const other = await open(options);
  await follow(other.page, 'From a file');
  await chosen(other.page, file(text));
  await press(other.page, 'Take it in');
  await title(other.page, 'Round');
  // Its own entry of joining comes a moment after the book: what is handed over next must hold it.
  const before = (text.match(/"phone_joined"/g) ?? []).length;
  await go(other.page, '#/book');
  await other.page.locator('.entry', { hasText: 'A phone joined' }).nth(before).waitFor();
  await go(other.page, '#/');
  return other;
}

const passphrase = (page) => page.getByRole('textbox', { name: 'Passphrase', exact: true });
const entriesOf = (text) => JSON.parse(text.slice(0, text.indexOf('\n'))).entries;
const letters = async (page) => {
  await toFiles(page);
  return page.locator('.fingerprint').innerText();
};

async function looked(page, name) {
  await picture(page, name);
  assert.deepEqual(await axe(page), []);
}

phoneTest('a phone gets only what it lacks, and several files are looked at in one go', {}, async ({ page, complaints }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  const whole = await handOver(page);
  const other = await joined(whole);
  try {
    const second = other.page;
    await takeIn(page, file(await handOver(second)));
    await addPlace(page, 'Lath house');
    await toFiles(page);
    await told(page, '1 entry on this phone alone.');
    await page.getByRole('radio', { name: /^Only what .+ lacks/ }).check({ force: true });
    await told(page, '1 entry, as far as is known here');
    await looked(page, 'files-hand-over');
    const part = await saved(page);
    assert.match(part.name, /^nursery-book-.+-for-\w+\.txt$/);
    assert.equal(entriesOf(part.text), 1);
    await told(page, /^In the file: /);
    await told(page, 'Saved on this phone. It is safe once it lies somewhere else.');
    await press(page, 'It lies somewhere else now');
    await told(page, 'Nothing would be lost with this phone.');

    await toFiles(second);
    await chosen(second, file('milk\neggs\n', 'shopping.txt'), file(part.text), file(whole, 'older.txt'));
    await told(second, '1 entry new');
    await told(second, 'These files stay out');
    await told(second, /shopping\.txt.*not a book of this program/);
    await looked(second, 'files-several');
    await press(second, 'Take it in');
    await title(second, 'Round');
    await eventually(page, async () => assert.equal(await letters(second), await letters(page)));

    const third = await open();
    try {
      await follow(third.page, 'From a file');
      await chosen(third.page, file(part.text));
      await told(third.page, /only what another phone lacked/);
      await chosen(third.page, file(part.text), file(whole));
      await told(third.page, /entries new/);
      await press(third.page, 'Take it in');
      await title(third.page, 'Round');
      await go(third.page, '#/shed/places');
      await told(third.page, 'Lath house');
    } finally {
      await close(third);
    }
  } finally {
    await close(other);
  }
  assert.deepEqual(complaints, []);
});

phoneTest('a file under a passphrase opens with it alone, here and without the program, and not once it was touched', {}, async ({ page, complaints }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  const plain = await handOver(page);
  await page.getByRole('switch', { name: /Under a passphrase/ }).check({ force: true });
  await passphrase(page).fill('short');
  await press(page, 'Save as a file');
  await told(page, 'Too short: 10 letters at least.');
  await passphrase(page).fill(PASSPHRASE);
  await looked(page, 'files-passphrase');
  const closed = await saved(page);
  assert.match(closed.name, /-passphrase\.txt$/);
  assert.ok(!closed.text.includes('Cool house'));
  const lines = (text) => text.split('\n').filter((line) => line.startsWith('{"dev"') || line.startsWith('['));
  assert.deepEqual(lines(disclose(closed.text, PASSPHRASE)), lines(plain));
  assert.throws(() => disclose(closed.text, `${PASSPHRASE}!`));

  const other = await joined(plain);
  let theirs;
  try {
    await addPlace(other.page, 'Lath house');
    theirs = await handOver(other.page);
  } finally {
    await close(other);
  }
  await page.getByRole('switch', { name: /Under a passphrase/ }).uncheck({ force: true });
  await passphrase(page).waitFor({ state: 'detached' });
  const before = await letters(page);
  const never = async (text, words) => {
    await chosen(page, file(text));
    await passphrase(page).fill(PASSPHRASE);
    await press(page, 'Open the file');
    await told(page, words);
    assert.equal(await page.getByRole('button', { name: 'Take it in' }).count(), 0);
  };
  const swap = ([first, second, ...rest]) => [first, ...rest.slice(0, 1), second, ...rest.slice(1)];
  // Many chunks, so that there is something between the first and the last.
  const head = { packed: false };
  const flip = (line) => {
    const bytes = Buffer.from(line, 'base64');
    bytes[5] ^= 4;
    return bytes.toString('base64');
  };
  await never(enclose(theirs, 'another one altogether'), /does not open the file/);
  await never(enclose(theirs, PASSPHRASE, { head, lines: (all) => all.slice(0, -1) }), /changed or cut off on its way/);
  await never(enclose(theirs, PASSPHRASE, { head, lines: swap }), /changed or cut off on its way/);
  await never(enclose(theirs, PASSPHRASE, { head, lines: (all) => all.with(1, flip(all[1])) }), /changed or cut off on its way/);
  await never(enclose(theirs, PASSPHRASE, { head, lines: (all) => all.with(0, flip(all[0])) }), /does not open the file/);
  const changedHead = enclose(theirs, PASSPHRASE).replace('"chunk":1024', '"chunk":2048');
  await never(changedHead, /does not open the file/);
  await chosen(page, file(enclose(theirs, PASSPHRASE, { head: { rounds: 900_000_000 } })));
  await told(page, /a way of opening that this program does not follow/);
  assert.equal(await letters(page), before, 'nothing came in');

  // The one kept for ever, of another nursery: it opens, and is told for what it is.
  await never(await readFile(new URL('../golden/envelope-1.txt', import.meta.url), 'utf8'), /the book of another nursery/);

  // Written elsewhere, named by a mail program, with the ends of lines of another system.
  const sound = `\ufeff${enclose(theirs, PASSPHRASE.normalize('NFD')).replaceAll('\n', '\r\n')}`;
  await chosen(page, file(sound, 'ATT00001.bin'));
  await told(page, 'This file is under a passphrase.');
  await passphrase(page).fill(PASSPHRASE);
  await looked(page, 'files-closed');
  await press(page, 'Open the file');
  await told(page, '2 entries new');
  await press(page, 'Take it in');
  await title(page, 'Round');
  await go(page, '#/shed/places');
  await told(page, 'Lath house');
  assert.deepEqual(complaints, []);
});

phoneTest('so many files are looked at in one go, and not one more', {}, async ({ page, complaints }) => {
  await startBook(page);
  const whole = await handOver(page);
  const choose = async (count) => {
    await toFiles(page);
    await chosen(page, ...Array.from({ length: count }, (_, at) => file(whole, `book-${at}.txt`)));
  };
  for (const count of [FILES_MAX - 1, FILES_MAX]) {
    await choose(count);
    await told(page, '0 entries new');
    await room(page, 'Stock');
    await title(page, 'Stock');
  }
  await choose(FILES_MAX + 1);
  await told(page, `Choose at most ${FILES_MAX} files at once.`);
  assert.deepEqual(complaints, []);
});

phoneTest('what no book is, is told in a sentence and freezes nothing', {}, async ({ page, complaints }, t) => {
  await startBook(page);
  const plain = await handOver(page);
  const folder = await mkdtemp(path.join(tmpdir(), 'velamen-strange-'));
  t.after(() => rm(folder, { recursive: true, force: true }));
  const lying = async (name, bytes) => {
    const where = path.join(folder, name);
    await writeFile(where, bytes);
    return where;
  };
  const head = plain.slice(0, plain.indexOf('\n') + 1);
  const strange = [
    ['zeros.txt', Buffer.alloc(100 << 20), /not a book of this program/],
    ['bomb.txt.gz', gzipSync(Buffer.alloc(400 << 20)), /far larger than a book/],
    ['bomb-of-a-book.gz', gzipSync(Buffer.concat([Buffer.from(head), Buffer.alloc(300 << 20, 10)])), /far larger than a book/],
    ['million.txt', `${head}${'milk\n'.repeat(1_000_000)}`, /damaged on its way/],
    ['blank.txt', `${head}${'\n'.repeat(1_200_000)}`, /more than 1100000 lines/],
    ['torn.gz', gzipSync(plain).subarray(0, -9), /packed and was damaged/],
    ['empty.txt', '', /This file is empty/],
    ['letters.txt', Buffer.from([0x7b, 0xff, 0xfe, 0x00]), /not a book of this program/],
  ];
  for (const [name, bytes, words] of strange) {
    await toFiles(page);
    const began = Date.now();
    await page.locator('input[type=file]').setInputFiles(await lying(name, bytes));
    await told(page, words);
    t.diagnostic(`${name}: ${Date.now() - began} ms`);
    assert.equal(await page.getByRole('button', { name: 'Take it in' }).count(), 0);
    await room(page, 'Stock');
    await title(page, 'Stock');
  }
  await toFiles(page);
  const windows = `\ufeff${plain.replaceAll('\n', '\r\n')}`;
  await page.locator('input[type=file]').setInputFiles(await lying('noname', gzipSync(windows)));
  await told(page, '0 entries new');
  assert.deepEqual(complaints, []);
});

/** A picture of a leaf, drawn by the browser. */
async function shot(page) {
  const base64 = await page.evaluate(async () => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [900, 600];
    const pen = canvas.getContext('2d');
    pen.fillStyle = '#3f7d3a';
    pen.fillRect(0, 0, 900, 600);
    pen.fillStyle = '#2a1a10';
    for (let spot = 0; spot < 40; spot += 1) pen.fillRect((spot * 733) % 900, (spot * 419) % 600, 30, 20);
    const blob = await new Promise((done) => canvas.toBlob(done, 'image/jpeg'));
    let text = '';
    for (const byte of new Uint8Array(await blob.arrayBuffer())) text += String.fromCharCode(byte);
    return btoa(text);
  });
  return { name: 'leaf.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(base64, 'base64') };
}

/** The files of a ZIP by its directory, each as it lies there: no library, and nothing of the program's. */
function unzipped(zip) {
  const end = zip.lastIndexOf(Buffer.from('PK\x05\x06', 'latin1'));
  const files = {};
  let at = zip.readUInt32LE(end + 16);
  for (let left = zip.readUInt16LE(end + 10); left > 0; left -= 1) {
    const [method, bytes] = [zip.readUInt16LE(at + 10), zip.readUInt32LE(at + 24)];
    const [name, more, note] = [28, 30, 32].map((place) => zip.readUInt16LE(at + place));
    const local = zip.readUInt32LE(at + 42);
    const from = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    assert.equal(method, 0, 'stored');
    files[zip.toString('utf8', at + 46, at + 46 + name)] = zip.subarray(from, from + bytes);
    at += 46 + name + more + note;
  }
  return files;
}

phoneTest('a photograph travels in a ZIP beside the book, and is shown as missing until it has come', {}, async ({ page, complaints }) => {
  await startBook(page);
  await go(page, '#/stock/new');
  await page.getByLabel('Name of the plant').fill('Cymbidium lowianum');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
  await press(page, 'Open the lot');
  await follow(page, 'Seen here');
  await page.getByLabel('Take a photograph').setInputFiles(await shot(page));
  await page.locator('button.photo img').waitFor();
  await press(page, 'Leaf spots');
  await told(page, 'Recorded: Leaf spots.');
  const finding = new URL(page.url()).hash;
  const text = await handOver(page);
  await follow(page, 'Photographs');
  await told(page, '1 photograph of the book, all on this phone.');
  await looked(page, 'photographs');
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save the photographs')]);
  const zip = await readFile(await download.path());
  const [[name, bytes], ...others] = Object.entries(unzipped(zip));
  assert.equal(others.length, 0);
  assert.equal(name, `${createHash('sha256').update(bytes).digest('hex')}.jpg`);

  const other = await joined(text);
  try {
    const second = other.page;
    await go(second, finding);
    await title(second, 'Leaf spots');
    assert.equal(await second.locator('button.photo img').count(), 0);
    await go(second, '#/book/photographs');
    await told(second, /1 missing/);
    await looked(second, 'photographs-missing');
    await toFiles(second);
    const album = (buffer) => ({ name: 'photographs.zip', mimeType: 'application/zip', buffer });
    await chosen(second, album(zip.subarray(0, -30)));
    await told(second, /ends early or was damaged/);
    const spoilt = Buffer.from(zip);
    spoilt[zip.indexOf(bytes) + 100] ^= 1;
    await chosen(second, album(spoilt));
    await told(second, '1 photograph new');
    await press(second, 'Take it in');
    await title(second, 'Round');
    await go(second, '#/book/photographs');
    await told(second, /1 missing/);
    await takeIn(second, album(zip));
    await told(second, 'Taken in: 1 photograph.');
    await go(second, '#/book/photographs');
    await told(second, '1 photograph of the book, all on this phone.');
    await toFiles(second);
    await chosen(second, album(zip));
    await told(second, '1 photograph here already');
    assert.deepEqual(other.complaints, []);
  } finally {
    await close(other);
  }
  assert.deepEqual(complaints, []);
});

/** Changes the phone's own store behind the program's back: `work(stores)` runs in one transaction. */
const spoil = (page, work) => page.evaluate((text) => new Promise((resolve, reject) => {
  const opening = indexedDB.open('velamen');
  opening.onerror = () => reject(opening.error);
  opening.onsuccess = () => {
    const writing = opening.result.transaction(['entries', 'drafts', 'snapshot'], 'readwrite');
    const rows = writing.objectStore('entries').getAll();
    rows.onsuccess = () => {
      const [how, which] = text.split(' ');
      const row = rows.result.find((one) => one.line.includes(which));
      writing.objectStore('entries').put(how === 'without' ? { arrival: row.arrival } : { ...row, line: row.line.replace(which, `${which}"`) });
      writing.objectStore('snapshot').clear();
    };
    writing.oncomplete = () => { opening.result.close(); resolve(); };
    writing.onabort = () => reject(writing.error);
  };
}), work);

/** A page of the same origin that holds no program: the database can be changed in peace. */
async function still(page) {
  await page.goto(new URL('manifest.webmanifest', home).href);
}

phoneTest('a damaged store is saved as far as it can be read, and the book built anew from it', {}, async ({ page }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  const earlier = await handOver(page);
  await addPlace(page, 'Lath house');
  await go(page, '#/shed/places');
  await page.getByLabel('Name of the place').fill('half typed');
  await page.waitForTimeout(500);
  await still(page);
  await spoil(page, 'without Cool');
  await page.goto(home);
  await title(page, 'The book cannot be opened');
  await told(page, /Something in the phone's own store is damaged/);
  await looked(page, 'rescue');
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save what can be read')]);
  await told(page, /1 row could not be read/);
  const rescued = await readFile(await download.path(), 'utf8');
  assert.ok(rescued.includes('Lath house') && rescued.includes('half typed') && !rescued.includes('Cool house'));
  await press(page, 'Build the book anew from it');
  await told(page, /built anew from/);
  // What was lost is in the file handed over earlier; with it, what waited for it counts again.
  await takeIn(page, file(earlier));
  await go(page, '#/shed/places');
  await told(page, 'Lath house');
  await told(page, 'Cool house');
  await eventually(page, async () => assert.equal(await page.getByLabel('Name of the place').inputValue(), 'half typed'));
  await addPlace(page, 'Seedling bench');
});

phoneTest('a phone that lost an entry of its own goes on under another name until it comes back', {}, async ({ page }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  const earlier = await handOver(page);
  await addPlace(page, 'Lath house');
  await still(page);
  await spoil(page, 'spoilt Cool');
  await page.goto(home);
  await told(page, /An entry of this phone is missing/);
  await addPlace(page, 'Seedling bench');
  await takeIn(page, file(earlier));
  await go(page, '#/shed/places');
  for (const name of ['Cool house', 'Lath house', 'Seedling bench']) await told(page, name);
});

phoneTest('a phone is taken off the book, what it writes on is asked about, and it joins again by a tap', {}, async ({ page, complaints }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  const other = await joined(await handOver(page));
  try {
    const second = other.page;
    await takeIn(page, file(await handOver(second)));
    await toFiles(page);
    await follow(page, 'Phones of the book');
    await title(page, 'Phones of the book');
    await looked(page, 'phones');
    await press(page, 'Take it off the book');
    await looked(page, 'phones-take-off');
    await page.waitForTimeout(400);
    await page.getByRole('dialog').getByRole('button', { name: 'Take it off the book' }).click();
    await told(page, 'Taken off the book.');
    await addPlace(second, 'Lath house');
    await takeIn(page, file(await handOver(second)));
    await go(page, '#/book/questions');
    await told(page, /taken off the book it wrote on/);
    await looked(page, 'questions-left');
    await press(page, 'Right as it stands');
    await told(page, 'No questions. The book agrees with itself.');
    await takeIn(second, file(await handOver(page)));
    await go(second, '#/book/phones');
    await press(second, 'Join the book');
    await addPlace(second, 'Seedling bench');
  } finally {
    await close(other);
  }
  assert.deepEqual(complaints, []);
});

phoneTest('a file passed on by another app waits where files are taken in', {}, async ({ page }) => {
  await startBook(page);
  const text = await handOver(page);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (navigator.serviceWorker.controller) return;
    await new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));
  });
  // As a share sheet does it: a form of the system's own, sent to the program's address.
  await page.goto(new URL('nothing-is-here', home).href);
  await page.setContent('<form action="share" method="post" enctype="multipart/form-data"><input type="file" name="files" multiple><button>Share</button></form>');
  await page.locator('input').setInputFiles([file(text, 'nursery-book.txt')]);
  await page.getByRole('button', { name: 'Share' }).click();
  await title(page, 'Hand over, take in');
  await told(page, '0 entries new');
});

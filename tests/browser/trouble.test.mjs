// When something goes wrong with the phone: each has a calm sentence of its own, and what was recorded can still be
// carried out. A full phone has a file of its own, a refused camera stands with the labels.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { eventually, follow, go, press, room, title } from './hand.mjs';
import { axe, close, home, open, phoneTest, picture, reopen } from './harness.mjs';

const told = (page, words) => page.getByText(words).first().waitFor();

async function looked(page, name) {
  await picture(page, name);
  assert.deepEqual(await axe(page), []);
}

async function startBook(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
}

async function addTask(page, words) {
  await go(page, '#/round/task');
  await page.getByLabel('What is to be done').fill(words);
  await press(page, 'Add this task');
  await title(page, 'Round');
  await page.getByText(words, { exact: true }).first().waitFor();
}

async function saved(page, key) {
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, key)]);
  return readFile(await download.path(), 'utf8');
}

/** Another phone takes the file in, and has the work that was recorded. */
async function carriedOut(text, words) {
  const other = await open();
  try {
    await follow(other.page, 'From a file');
    await other.page.locator('input[type=file]').setInputFiles({ name: 'book.txt', mimeType: 'text/plain', buffer: Buffer.from(text) });
    await press(other.page, 'Take it in');
    await title(other.page, 'Round');
    await other.page.getByText(words, { exact: true }).first().waitFor();
  } finally {
    await close(other);
  }
}

/** As in a private window of some browsers: nothing may be kept, not even a word. */
const keepsNothing = () => {
  const no = () => { throw new DOMException('denied', 'SecurityError'); };
  window.allow = IDBFactory.prototype.open;
  IDBFactory.prototype.open = no;
  Object.defineProperty(window, 'localStorage', { configurable: true, get: no });
};

for (const colorScheme of ['light', 'dark']) phoneTest(`a browser that keeps nothing is told, and the book opens once it may, ${colorScheme}`, { init: keepsNothing, colorScheme }, async ({ page }) => {
  await title(page, 'The book cannot be opened');
  await told(page, 'The browser allows no storage here.');
  assert.equal(await page.getByRole('button', { name: /^Save/ }).count(), 0, 'nothing is damaged');
  await looked(page, `trouble-refused-${colorScheme}`);
  await press(page, 'Try again');
  await told(page, 'The browser allows no storage here.');
  await page.evaluate(() => { IDBFactory.prototype.open = window.allow; });
  await press(page, 'Try again');
  await page.getByLabel('Name of the nursery').waitFor();
});

phoneTest('a clock that cannot be right is told before anything is recorded by it', { url: null }, async (phone) => {
  let { page } = phone;
  await page.goto(home);
  await startBook(page);
  await addTask(page, 'Order bark');
  const now = await page.evaluate(() => Date.now());
  assert.equal(await page.getByText(/clock stands at/).count(), 0);
  await close(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await page.clock.setFixedTime(now - 40 * 86_400_000);
  await page.goto(home);
  await told(page, /The phone's clock stands at \d+ \w+ \d{4}, but the last entry from here says/);
  await looked(page, 'trouble-clock');
  await page.clock.setFixedTime(new Date('1970-01-02T08:00:00Z'));
  await page.reload();
  await told(page, /The phone's clock stands at 2 January 1970: put it right/);
  await page.clock.setFixedTime(now + 60_000);
  await page.reload();
  await page.getByText('Order bark', { exact: true }).first().waitFor();
  assert.equal(await page.getByText(/clock stands at/).count(), 0);
});

/** The next thing the program asks of the page fails, in a way that no page fails: what is left of it then? */
const failNext = () => {
  const parts = [[Document.prototype, 'createElement'], [Node.prototype, 'cloneNode']];
  const right = parts.map(([of, name]) => of[name]);
  parts.forEach(([of, name]) => {
    of[name] = () => {
      parts.forEach(([each, other], at) => { each[other] = right[at]; });
      throw new Error('made to fail');
    };
  });
};

phoneTest('a screen that stops says so, and leads to where the book is carried out', {}, async ({ page }) => {
  await startBook(page);
  await addTask(page, 'Order bark');
  await page.evaluate(failNext);
  await room(page, 'Stock');
  await told(page, 'This screen has stopped.');
  await told(page, 'Everything that was shown as recorded is safe.');
  await looked(page, 'trouble-stopped');
  await page.getByRole('button', { name: 'Save the book as a file', exact: true }).click();
  await title(page, 'Hand over, take in');
  assert.equal(await page.getByText('This screen has stopped.').count(), 0);
  await carriedOut(await saved(page, 'Save as a file'), 'Order bark');
  await page.evaluate(failNext);
  await room(page, 'Stock');
  await told(page, 'This screen has stopped.');
  await page.getByRole('button', { name: 'Open again', exact: true }).click();
  await title(page, 'Stock');
});

phoneTest('a program that ended while it opened the book does not do it again, and the book is saved unread', {}, async ({ page }) => {
  await startBook(page);
  await addTask(page, 'Order bark');
  // As such an end leaves the page: while the book was being opened, and with what it said.
  await page.evaluate(() => {
    sessionStorage.setItem('velamen.opening', '1');
    localStorage.setItem('velamen.last_failure', 'index out of bounds');
  });
  await page.reload();
  await title(page, 'The book cannot be opened');
  await told(page, /the program ended while it opened the book \(index out of bounds\)/);
  await looked(page, 'trouble-opening');
  await carriedOut(await saved(page, 'Save what can be read'), 'Order bark');
  await press(page, 'Try again');
  await title(page, 'Round');
  await page.getByText('Order bark', { exact: true }).first().waitFor();
});

phoneTest('two windows: one writes and the other follows, hands over, and takes the pen when asked', {}, async ({ page, context, complaints }) => {
  await startBook(page);
  await addTask(page, 'Order bark');
  const second = await context.newPage();
  await second.goto(home);
  await second.getByText('Order bark', { exact: true }).first().waitFor();
  await told(second, 'Another window is writing. This one only shows.');
  await looked(second, 'trouble-two-windows');
  await second.getByRole('button', { name: /^All done: / }).first().click();
  await told(second, 'Another window has the book open for writing.');
  await addTask(page, 'Wash the tubs');
  await second.getByText('Wash the tubs', { exact: true }).first().waitFor();
  await go(second, '#/book/files');
  await title(second, 'Hand over, take in');
  await carriedOut(await saved(second, 'Save as a file'), 'Wash the tubs');
  await press(second, 'Work here');
  await told(page, 'Another window is writing. This one only shows.');
  await addTask(second, 'Sweep the path');
  await page.getByText('Sweep the path', { exact: true }).first().waitFor();
  assert.deepEqual(complaints, []);
});

const sharesNothing = () => {
  Navigator.prototype.canShare = () => true;
  Navigator.prototype.share = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
};

phoneTest('a share sheet that refuses is told, and the file can be saved', { init: sharesNothing }, async ({ page, complaints }) => {
  await startBook(page);
  await addTask(page, 'Order bark');
  await go(page, '#/book/files');
  await title(page, 'Hand over, take in');
  await press(page, 'Share');
  await told(page, 'The phone did not pass the file on.');
  await looked(page, 'trouble-share');
  await carriedOut(await saved(page, 'Save as a file'), 'Order bark');
  assert.deepEqual(complaints, []);
});

/** Files that cannot be read while `window.gone`, as from a card that was pulled; slow ones while `window.slow`. */
const badCard = () => {
  const { arrayBuffer } = Blob.prototype;
  Blob.prototype.arrayBuffer = async function read() {
    if (window.gone) throw new DOMException('gone', 'NotReadableError');
    const wait = window.slow;
    if (wait) {
      window.slow = null;
      await wait;
    }
    return arrayBuffer.call(this);
  };
};

const table = (name, rows) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(['Plant,Plants,Bench', ...rows].join('\n')) });

phoneTest('a file that cannot be read is told, and of two chosen quickly the second counts', { init: badCard }, async ({ page, complaints }) => {
  await startBook(page);
  await page.evaluate(() => { window.gone = true; });
  await go(page, '#/book/files');
  await title(page, 'Hand over, take in');
  await page.locator('input[type=file]').setInputFiles({ name: 'book.txt', mimeType: 'text/plain', buffer: Buffer.from('{}') });
  await told(page, 'The phone could not read this file.');
  await looked(page, 'trouble-unreadable');
  await go(page, '#/stock/list');
  await title(page, 'A list you have');
  const file = page.locator('input[type=file]');
  await file.setInputFiles(table('one.csv', ['Cymbidium lowianum,3,Cool house']));
  await told(page, 'The phone could not read this file.');
  await page.evaluate(() => { window.gone = false; });
  await page.evaluate(() => { window.slow = new Promise((done) => { window.atLast = done; }); });
  await file.setInputFiles(table('slow.csv', ['Cymbidium lowianum,3,Cool house']));
  await file.setInputFiles(table('quick.csv', ['Coelogyne cristata,1,Cool house', 'Stanhopea tigrina,1,Cool house']));
  await page.getByRole('button', { name: 'Take in 2 lots' }).waitFor();
  await page.evaluate(() => window.atLast());
  // What comes later on the same way: by then the slow one has come too.
  await page.evaluate(() => new Promise((done) => setTimeout(done, 0)));
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  await eventually(page, async () => assert.equal(await page.getByRole('button', { name: 'Take in 2 lots' }).count(), 1));
  assert.deepEqual(complaints, []);
});

/** Whatever is given to the disk lies there until `window.held` is false. */
const slowDisk = () => {
  const { commit } = IDBTransaction.prototype;
  IDBTransaction.prototype.commit = function late() {
    const store = this.objectStore(this.objectStoreNames[0]);
    // A transaction that is asked for nothing would end by itself.
    const wait = () => {
      if (window.held) store.count(0).onsuccess = wait;
      else commit.call(this);
    };
    wait();
  };
};

phoneTest('a record that reaches the disk late leads nobody away from where they went meanwhile', { init: slowDisk }, async ({ page, complaints }) => {
  await startBook(page);
  await go(page, '#/round/task');
  await page.getByLabel('What is to be done').fill('Order bark');
  await page.evaluate(() => { window.held = true; });
  await press(page, 'Add this task');
  await room(page, 'Stock');
  await title(page, 'Stock');
  await page.evaluate(() => { window.held = false; });
  await told(page, 'Recorded: task added');
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  assert.equal(await page.evaluate(() => location.hash), '#/stock');
  await room(page, 'Round');
  await page.getByText('Order bark', { exact: true }).first().waitFor();
  assert.deepEqual(complaints, []);
});

// The example: one tap into it, a morning's work in it, and out of it without a trace; a battery that dies on the way
// in or out; and a wall between it and an own book.
import assert from 'node:assert/strict';
import { eventually, go, press, room, title } from './hand.mjs';
import { axe, home, kill, phoneTest, picture, reopen } from './harness.mjs';

const exampleLine = (page) => page.getByText('An example, not your book', { exact: true });

async function lookAround(page) {
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await exampleLine(page).waitFor();
}

async function throwAway(page) {
  await press(page, 'Start my own');
  await press(page, 'Throw it away and start');
  await page.getByLabel('Name of the nursery').waitFor();
}

/** Everything of a book kept in this browser: databases, the rows of one store, and the words of the small storage. */
const databases = (page) => page.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name).sort());
const words = (page) => page.evaluate(() => Object.keys(localStorage).sort());
const keys = (page, database, store) => page.evaluate(([name, table]) => new Promise((done, fail) => {
  const opening = indexedDB.open(name);
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => {
    const reading = opening.result.transaction(table).objectStore(table).getAllKeys();
    reading.onsuccess = () => {
      opening.result.close();
      done(reading.result.map(String));
    };
  };
}), [database, store]);
const mark = (page, value) => page.evaluate((text) => new Promise((done, fail) => {
  const opening = indexedDB.open('velamen');
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => {
    const writing = opening.result.transaction('meta', 'readwrite');
    writing.objectStore('meta').put(text, 'example');
    writing.oncomplete = () => {
      opening.result.close();
      done();
    };
  };
}), value);

/** Counts the seconds of the processor that the page takes from now on: those on the wall are also of all else the machine does. */
async function worked(page) {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const seconds = async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration').value;
  };
  const before = await seconds();
  return async () => (await seconds()) - before;
}

const figure = async (page) => {
  const text = await page.locator('.figure').innerText();
  const [, late, due] = text.match(/^(\d+) late, (\d+) due$/) ?? assert.fail(text);
  return { late: Number(late), due: Number(due) };
};

phoneTest('one tap leads into an example with a morning of work in it, and out of it nothing stays behind', {}, async (phone) => {
  let { page } = phone;
  await page.getByLabel('Name of the nursery').waitFor();
  const before = { words: await words(page), marks: await keys(page, 'velamen', 'meta') };
  const since = await worked(page);
  await lookAround(page);
  const seconds = await since();
  assert.ok(seconds > 0 && seconds < 20, `${seconds} s`);
  const { late, due } = await figure(page);
  assert.ok(late > 0 && due > 0, `${late} late, ${due} due`);
  await page.getByText('Bath for the pots with leaf spots').waitFor();

  await room(page, 'Stock');
  await title(page, 'Stock');
  await page.locator('.stake').nth(40).waitFor();
  await page.getByLabel('Find a lot').fill('zygopetalum');
  await page.waitForFunction(() => document.querySelectorAll('.stake').length < 20);

  await room(page, 'Repot');
  await page.locator('button.pick', { hasText: 'Three Buckets' }).first().click();
  await press(page, 'Open it');
  await title(page, 'Three Buckets');
  await room(page, 'Round');
  await page.locator('.bench-row').getByText('3 pots').waitFor();
  await page.getByRole('link', { name: 'Go on' }).click();
  await title(page, 'Three Buckets');

  // The battery dies, and the example is where it was.
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'Three Buckets');
  await eventually(page, async () => assert.deepEqual(await databases(page), ['velamen', 'velamen-demo']));

  await room(page, 'Book');
  await page.getByRole('link', { name: 'Hand over' }).click();
  const [file] = await Promise.all([page.waitForEvent('download'), press(page, 'Save as a file')]);
  const path = `${phone.profile}/example.txt`;
  await file.saveAs(path);

  await throwAway(page);
  await eventually(page, async () => assert.deepEqual(await databases(page), ['velamen']));
  assert.deepEqual({ words: await words(page), marks: await keys(page, 'velamen', 'meta') }, before);
  for (const store of ['entries', 'drafts', 'photos', 'snapshot', 'segments']) assert.deepEqual(await keys(page, 'velamen', store), []);
  await eventually(page, () => assert.equal(new URL(page.url()).hash.replace(/[#/]/g, ''), ''));

  // From the first start the way in is open again, and what was looked for is forgotten.
  await lookAround(page);
  await room(page, 'Stock');
  await eventually(page, async () => assert.equal(await page.getByLabel('Find a lot').inputValue(), ''));
  await throwAway(page);
  await eventually(page, async () => assert.deepEqual(await databases(page), ['velamen']));

  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  assert.equal(await exampleLine(page).count(), 0, 'an own book is no example');
  await room(page, 'Stock');
  await title(page, 'Stock');
  assert.equal(await page.locator('.stake').count(), 0);
  await go(page, '#/book/files');
  await page.locator('input[type=file]').setInputFiles(path);
  await page.getByRole('alert').getByText('The example and real books are kept apart.').waitFor();
  assert.equal((await keys(page, 'velamen', 'entries')).length, 1, 'nothing of it came in');
});

phoneTest('an example whose making was cut short by the battery is made anew, whole', {}, async (phone) => {
  await title(phone.page, "The nursery's book");
  const slow = await phone.context.newCDPSession(phone.page);
  await slow.send('Emulation.setCPUThrottlingRate', { rate: 20 });
  await phone.page.getByRole('button', { name: 'Look around in an example' }).click();
  await title(phone.page, 'Writing the example');
  await picture(phone.page, 'example-making');
  // That an example is being looked at is on the disk; the example itself may be or not.
  await eventually(phone.page, async () => assert.ok((await keys(phone.page, 'velamen', 'meta')).includes('example')));
  await kill(phone, { atOnce: true });
  const { page, complaints } = await reopen(phone);
  await title(page, 'Round');
  await exampleLine(page).waitFor();
  // Written in one record, its lines lie together; the key of the last is its number.
  const arrivals = [...(await keys(page, 'velamen-demo', 'entries')), ...(await keys(page, 'velamen-demo', 'segments'))];
  const entries = Math.max(0, ...arrivals);
  assert.ok(entries > 300 && entries < 900, `${entries} entries`);
  assert.deepEqual(complaints, []);
});

phoneTest('an example that was being thrown away when the battery died is gone at the next start', {}, async (phone) => {
  await lookAround(phone.page);
  await press(phone.page, 'Start my own');
  await phone.page.waitForTimeout(400);
  await phone.page.getByRole('button', { name: 'Throw it away and start' }).click({ noWaitAfter: true });
  await kill(phone, { atOnce: true });
  let { page } = await reopen(phone);
  await page.getByLabel('Name of the nursery').or(exampleLine(page)).first().waitFor();
  const left = await exampleLine(page).count();
  // Killed before anything of it was on disk, the example is whole; and never is it half there.
  if (left === 0) await page.getByLabel('Name of the nursery').waitFor();
  else await figure(page);
  // The worst moment: the end is on disk, and the example still there.
  await mark(page, 'over');
  assert.deepEqual((await databases(page)).includes('velamen-demo'), left > 0);
  await page.reload();
  await page.getByLabel('Name of the nursery').waitFor();
  assert.deepEqual(await databases(page), ['velamen']);
  assert.deepEqual((await keys(page, 'velamen', 'meta')).filter((key) => key === 'example'), []);
});

phoneTest('two windows on the example: one writes, the other is told when it is gone', {}, async ({ page, context }) => {
  await lookAround(page);
  const other = await context.newPage();
  await other.goto(home);
  await exampleLine(other).waitFor();
  await other.getByText('Another window is writing. This one only shows.').waitFor();
  await page.bringToFront();
  await throwAway(page);
  await other.getByText('Load this one again.').waitFor();
  await other.reload();
  await other.getByLabel('Name of the nursery').waitFor();
  // Which of the two may write the own book has nothing to do with the example.
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await other.getByRole('heading', { level: 1, name: 'Round' }).waitFor();
});

for (const colorScheme of ['light', 'dark']) {
  phoneTest(`the way in and out is whole and clear in ${colorScheme}`, { colorScheme }, async ({ page, complaints }) => {
    const look = async (name) => {
      await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
      await picture(page, `${colorScheme}-${name}`);
      assert.deepEqual(await axe(page), [], name);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.equal(wide, 0, `${name} is wider than the phone`);
    };
    await page.getByRole('button', { name: 'Look around in an example' }).waitFor();
    await look('first-start');
    await lookAround(page);
    await look('example-round');
    for (const [hash, name] of [['#/stock', 'stock'], ['#/repot', 'repot'], ['#/treat', 'treat'], ['#/book', 'book'], ['#/shed', 'shed']]) {
      await go(page, hash);
      await exampleLine(page).waitFor();
      await look(`example-${name}`);
    }
    await press(page, 'Start my own');
    await page.getByRole('button', { name: 'Throw it away and start' }).waitFor();
    await look('example-end');
    await press(page, 'Keep looking around');
    await exampleLine(page).waitFor();
    assert.deepEqual(complaints, []);
  });
}

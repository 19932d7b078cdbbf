// The program comes in two parts: the first shows the Round, everything else comes behind it, late or not at all.
import assert from 'node:assert/strict';
import { eventually, follow, go, press, room, title } from './hand.mjs';
import { axe, phoneTest, picture } from './harness.mjs';

const REST = '**/*-split_rest.wasm';

/** Lets the second part fail until `come()`. */
async function heldBack(page) {
  let here = false;
  await page.route(REST, (route) => (here ? route.continue() : route.abort()));
  return { come() { here = true; } };
}

async function begin(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
}

phoneTest('the Round stands and takes a tap before the rest of the program is there', { noWorker: true }, async ({ page, complaints }) => {
  await begin(page);
  await follow(page, 'Add a task');
  await page.getByLabel('What is to be done').fill('Sweep the path');
  await page.waitForTimeout(400);
  await page.locator('.action-main').last().click();
  await title(page, 'Round');
  await page.getByText('Sweep the path').first().waitFor();
  // What is kept of the Round is written a moment after it stands.
  await eventually(page, async () => assert.ok(await page.evaluate(() => new Promise((resolve) => {
    const opening = indexedDB.open('velamen');
    opening.onsuccess = () => {
      const db = opening.result;
      const store = [...db.objectStoreNames].find((name) => /snap/.test(name));
      const all = db.transaction(store).objectStore(store).getAllKeys();
      all.onsuccess = () => { db.close(); resolve(all.result.length > 0); };
    };
  }))));

  const rest = await heldBack(page);
  await page.reload();
  await page.getByText('Sweep the path').first().waitFor();
  await title(page, 'Round');
  await picture(page, 'parts-first');
  // A tap is taken, and a room says that it is on its way.
  await press(page, 'All done: Sweep the path');
  await room(page, 'Stock');
  await eventually(page, async () => assert.match(await page.locator('main').innerText(), /Opening the book|A part of the program is missing/));
  await room(page, 'Round');
  await page.getByText('what you tap is recorded when it comes').waitFor();
  await picture(page, 'parts-late');
  assert.deepEqual(await axe(page), []);
  rest.come();
  await page.getByText('Recorded: Sweep the path').waitFor();
  await eventually(page, async () => assert.equal(await page.locator('.work').count(), 0));
  await room(page, 'Stock');
  await title(page, 'Stock');
  await go(page, '#/book');
  await page.getByText('Sweep the path').first().waitFor();
  // Opened without an address, the program goes on where it was left, but calls nobody back who has gone somewhere meanwhile.
  const again = await heldBack(page);
  await page.goto(process.env.VELAMEN_URL);
  await title(page, 'Round');
  await room(page, 'Stock');
  again.come();
  await title(page, 'Stock');
  // Nothing but the fetches that were let fail.
  assert.deepEqual(complaints.filter((line) => !/split_rest|ERR_FAILED|Failed to fetch|import1/.test(line)), []);
});

phoneTest('a part of the program that cannot be had is said, and asked for again', { noWorker: true, url: null }, async ({ page }) => {
  await page.route(REST, (route) => route.abort());
  await page.goto(process.env.VELAMEN_URL);
  await title(page, 'The book cannot be opened');
  await page.getByText('The book is safe.').waitFor();
  await picture(page, 'parts-missing');
  assert.deepEqual(await axe(page), []);
  await page.unroute(REST);
  await press(page, 'Try again');
  await begin(page);
  await room(page, 'Stock');
  await title(page, 'Stock');
});

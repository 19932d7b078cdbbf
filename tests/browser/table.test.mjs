// At a table: the list beside what is opened from it, the keyboard all the way, a stock that scrolls however long it is,
// and many lots answered at once.
import assert from 'node:assert/strict';
import { eventually, press, title, toTheEnd } from './hand.mjs';
import { axe, phoneTest, picture } from './harness.mjs';

const genera = ['Cymbidium lowianum', 'Paphiopedilum insigne', 'Dendrobium kingianum', 'Cattleya purpurata', 'Coelogyne cristata'];

/** A book with so many lots, on four benches of two houses. */
async function bookOf(page, lots) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  const rows = ['Plant;How many;Bench'];
  for (let at = 0; at < lots; at += 1) {
    rows.push(`${genera[at % genera.length]} ${at};${(at % 40) + 1};${at % 2 ? 'Cool' : 'Warm'} house, bench ${(at % 4) + 1}`);
  }
  await page.evaluate(() => { location.hash = '#/stock/list'; });
  await title(page, 'A list you have');
  await page.locator('input[type=file]').setInputFiles({ name: 'stock.csv', mimeType: 'text/csv', buffer: Buffer.from(rows.join('\r\n')) });
  // The key of the start lay at the same spot.
  await page.waitForTimeout(400);
  await page.getByRole('button', { name: /^Take in/ }).click();
  await title(page, 'Stock');
}

const lines = (page) => page.locator('.stock-line');
const names = (page) => page.locator('.stock-line .line-name').allInnerTexts();
const focused = (page) => page.evaluate(() => document.activeElement?.innerText ?? '');

phoneTest('the stock is a table that is sifted, ordered, scrolled and answered by many', { laptop: true, scale: 1 }, async ({ page, complaints }) => {
  await bookOf(page, 1_200);
  await page.getByText('1 200 lots, ').waitFor();
  // Only what is in sight is on the page, and the table says how long it is.
  await eventually(page, async () => assert.ok(await lines(page).count() > 10));
  assert.ok(await lines(page).count() < 120, `${await lines(page).count()} lines on the page`);
  assert.equal(await page.getByRole('table').getAttribute('aria-rowcount'), '1201');
  await picture(page, 'table');
  assert.deepEqual(await axe(page), []);

  // To the end and back.
  await page.locator('.table-lines').evaluate((room) => { room.scrollTop = room.scrollHeight; });
  await eventually(page, async () => assert.equal(await lines(page).last().getAttribute('aria-rowindex'), '1201'));
  const end = await lines(page).last().boundingBox();
  assert.ok(end.y + end.height <= 800, 'the last line is in sight');
  await page.locator('.table-lines').evaluate((room) => { room.scrollTop = 0; });
  await eventually(page, async () => assert.equal(await lines(page).first().getAttribute('aria-rowindex'), '2'));

  // By plants, most first.
  await page.getByRole('button', { name: 'Plants', exact: true }).click();
  await page.getByRole('button', { name: 'Plants', exact: true }).click();
  await eventually(page, async () => assert.equal(await page.getByRole('columnheader', { name: 'Plants' }).getAttribute('aria-sort'), 'descending'));
  await eventually(page, async () => assert.equal(await lines(page).first().locator('.line-count').first().innerText(), '40'));
  await page.getByRole('button', { name: 'Name', exact: true }).click();
  await eventually(page, async () => assert.match((await names(page))[0], /^Cattleya purpurata/));

  // Sifted by words and by place at once.
  await page.getByLabel('Find a lot').fill('kingianum');
  await page.getByText('240 of 1 200 lots, ').waitFor();
  await page.getByLabel('Place').selectOption({ label: 'Cool house, bench 2' });
  await page.getByText('60 of 1 200 lots, ').waitFor();
  await page.getByRole('checkbox', { name: 'Choose all shown' }).check();
  await page.getByText('60 lots chosen, ').waitFor();
  await picture(page, 'table-chosen');
  assert.deepEqual(await axe(page), []);

  // All of them move in one entry, and go back in one.
  await press(page, 'Move');
  await page.locator('dialog[open]').getByRole('radio', { name: 'Warm house, bench 1' }).check({ force: true });
  await picture(page, 'table-move');
  await press(page, 'Move them here');
  await page.getByText('60 lots moved.').waitFor();
  await page.getByText('0 of 1 200 lots, ').waitFor();
  await press(page, 'Undo');
  await page.getByText('60 of 1 200 lots, ').waitFor();
  await page.getByText('60 lots chosen, ').waitFor();

  // Seen on all of them.
  await press(page, 'Seen');
  await press(page, 'Spike seen');
  await page.getByText('Recorded: Spike seen').waitFor();
  await press(page, 'None of them');
  await page.getByText('60 lots chosen, ').waitFor({ state: 'hidden' });
  await press(page, 'Show every lot');
  await page.getByText('1 200 lots, ').waitFor();

  // Paper has every line.
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  await eventually(page, async () => assert.equal(await lines(page).count(), 1_200));
  await page.evaluate(() => dispatchEvent(new Event('afterprint')));
  await eventually(page, async () => assert.ok(await lines(page).count() < 120));
  assert.deepEqual(complaints, []);
});

phoneTest('the keyboard goes all the way, and never takes what is typed', { laptop: true, scale: 1 }, async ({ page, complaints }) => {
  await bookOf(page, 12);
  const heard = async (key, check) => { await page.keyboard.press(key); await eventually(page, check); };
  const at = (words) => () => title(page, words);
  await page.locator('h1').focus();
  await heard('1', at('Round'));
  await page.getByRole('link', { name: /Cool house, bench 2: 3 lots/ }).waitFor();
  await picture(page, 'table-round');
  assert.deepEqual(await axe(page), []);
  await heard('0', at('Shed'));
  await picture(page, 'table-shed');
  await heard('4', at('Stock'));
  await page.getByText('12 lots, ').waitFor();

  // A field takes its letters; Escape leaves it with what was typed.
  await heard('/', async () => assert.equal(await page.evaluate(() => document.activeElement.tagName), 'INPUT'));
  await page.keyboard.type('x12?');
  assert.equal(await page.getByLabel('Find a lot').inputValue(), 'x12?');
  await page.getByLabel('Find a lot').fill('');
  await page.keyboard.press('Escape');
  await heard('j', async () => assert.match(await focused(page), /\w/));
  const first = await focused(page);
  await heard('j', async () => assert.notEqual(await focused(page), first));
  await heard('k', async () => assert.equal(await focused(page), first));
  await heard('x', () => page.getByText('1 lot chosen, ').waitFor());
  await heard('x', () => page.getByText('1 lot chosen, ').waitFor({ state: 'hidden' }));

  // Opened, the list stays beside it, says which is open, and goes on from there.
  await page.keyboard.press('Enter');
  await page.locator('.desk-two .beside').waitFor();
  await page.getByRole('heading', { level: 2, name: 'Stock' }).waitFor();
  await eventually(page, async () => assert.equal(await page.locator('.beside a[aria-current=true]').innerText(), first));
  await picture(page, 'table-lot');
  assert.deepEqual(await axe(page), []);
  await page.locator('.beside a[href^="#/lot/"]').first().focus();
  await heard('j', async () => assert.notEqual(await focused(page), first));
  const second = await focused(page);
  await page.keyboard.press('Enter');
  await eventually(page, async () => assert.equal(await page.locator('.beside a[aria-current=true]').innerText(), second));
  await heard('o', async () => assert.equal(await page.evaluate(() => document.activeElement.tagName), 'H1'));
  await heard('o', async () => assert.equal(await focused(page), second));
  // The boxes are hidden here, and what cannot be seen chooses nothing.
  await page.keyboard.press('x');
  await heard('Escape', async () => assert.equal(await page.locator('.beside').count(), 0));
  await title(page, 'Stock');
  assert.equal(await page.locator('.stock-line input:checked').count(), 0);

  // The keys are told, and single letters can be put off.
  await heard('?', () => page.getByRole('dialog', { name: 'Keys' }).waitFor());
  await picture(page, 'table-keys');
  assert.deepEqual(await axe(page), []);
  await heard('Escape', () => page.getByRole('dialog', { name: 'Keys' }).waitFor({ state: 'hidden' }));
  await page.evaluate(() => { location.hash = '#/shed/phone'; });
  await title(page, 'This phone');
  await page.locator('summary', { hasText: 'Keys' }).click();
  await page.locator('.toggle', { hasText: 'Single letters do things' }).click();
  await eventually(page, async () => assert.equal(await page.locator('.toggle input').last().isChecked(), false));
  await page.locator('h1').focus();
  await page.keyboard.press('1');
  await page.keyboard.press('?');
  assert.equal(await page.locator('h1').innerText(), 'This phone');
  assert.equal(await page.locator('dialog[open]').count(), 0);
  assert.deepEqual(complaints, []);
});

phoneTest('a phone sees nothing of the table, and the plan fits it', { width: 320, height: 568, scale: 1 }, async ({ page, complaints }) => {
  await bookOf(page, 12);
  assert.equal(await page.locator('.desk, .stock-table').count(), 0);
  await toTheEnd(page, 'More lots');
  assert.equal(await page.locator('.lot-row').count(), 12);
  await page.evaluate(() => { location.hash = '#/round/plan'; });
  await title(page, 'The nursery');
  await page.getByRole('link', { name: /Warm house, bench 1: 3 lots/ }).waitFor();
  await picture(page, 'plan-narrow');
  assert.deepEqual(await axe(page), []);
  const benches = await page.locator('.plan a').evaluateAll((links) => links.map((link) => link.getBoundingClientRect().toJSON()));
  assert.equal(benches.length, 4);
  for (const bench of benches) assert.ok(bench.width >= 48 && bench.height >= 48 && bench.right <= 320, JSON.stringify(bench));
  assert.deepEqual(complaints, []);
});

// The first hour: a list from a spreadsheet, two thousand untidy rows of it, becomes the stock, and nothing is in the book
// before the tap.
import assert from 'node:assert/strict';
import { eventually, follow, press, title } from './hand.mjs';
import { axe, phoneTest, picture } from './harness.mjs';
import { pagesOf } from './pdf.mjs';

/** Old spreadsheets write one byte a letter. */
const latin = (text) => Buffer.from(text, 'latin1');

async function ownBook(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
}

for (const colorScheme of ['light', 'dark']) phoneTest(`a list is looked at, put right and taken in, ${colorScheme}`, { colorScheme, scale: 1 }, async ({ page, complaints }) => {
  await ownBook(page);
  await follow(page, 'From a list you have');
  await title(page, 'A list you have');
  const rows = [
    'Old no.;Plant;How many;Bench;Last repotted;Size;Remarks',
    '17;Cymbidium lowianum;4;Pépinière;03/2025;Flowering size;"scented; the old one"',
    '18;Zygopetalum maculatum;12;Rain bench;14/05/2025;two years;',
    '19;Coelogyne cristata;;Rain bench;2024;;',
    '20;Dendrobium kingianum;0;Rain bench;;;',
    '21;Dendrobium speciosum;a few;Rain bench;;;',
    ';;;;;;only a remark',
  ];
  await page.locator('input[type=file]').setInputFiles({ name: 'stock.csv', mimeType: 'text/csv', buffer: latin(rows.join('\r\n')) });
  await page.getByRole('button', { name: 'Take in 3 lots' }).waitFor();
  await page.getByText('3 lots with 17 plants.').waitFor();
  await page.getByText('2 new places will be made, last on the walk: Pépinière, Rain bench.').waitFor();
  await page.getByText('1 row has no count: one plant each.').waitFor();
  await picture(page, `list-${colorScheme}`);
  assert.deepEqual(await axe(page), []);
  await page.getByText('3 rows are not taken, and why').click();
  await page.getByText('Line 5: none are left.').waitFor();
  await page.getByText('Line 6: "a few" is no count.').waitFor();
  await page.getByText('Line 7: it has no name, no number and no count.').waitFor();

  // A word the program does not know is given its meaning; a column may be left out.
  await page.getByLabel('two years').selectOption({ label: 'Starters' });
  await page.getByText(/Zygopetalum maculatum · 12 pots · Rain bench · Starters/).waitFor();
  await page.getByLabel('How many', { exact: true }).selectOption({ label: 'Leave it out' });
  await page.getByText('5 lots with 5 plants.').waitFor();
  await page.getByLabel('How many', { exact: true }).selectOption({ label: 'How many plants' });
  await page.getByText('3 lots with 17 plants.').waitFor();
  await picture(page, `list-chosen-${colorScheme}`);

  await press(page, 'Take in 3 lots');
  await title(page, 'Stock');
  await page.getByText('Recorded: 3 lots from the list').waitFor();
  await picture(page, `list-stock-${colorScheme}`);
  await page.getByLabel('Find a lot').fill('18');
  await page.getByText('1 found', { exact: true }).waitFor();
  await page.getByText('Zygopetalum maculatum').waitFor();

  // Twice is once.
  await page.evaluate(() => { location.hash = '#/stock/list'; });
  await title(page, 'A list you have');
  await page.locator('input[type=file]').setInputFiles({ name: 'stock.csv', mimeType: 'text/csv', buffer: latin(rows.join('\r\n')) });
  await page.getByLabel('two years').selectOption({ label: 'Starters' });
  await page.getByText('6 rows are not taken, and why').waitFor();
  await page.getByText('No lot can be read with these columns.').waitFor();
  assert.equal(await page.getByRole('button', { name: /^Take in/ }).count(), 0);
  assert.deepEqual(complaints, []);
});

phoneTest('two thousand rows come in at one tap, and a table that is none is told', { width: 320, height: 568, scale: 1 }, async ({ page, complaints }) => {
  await ownBook(page);
  await follow(page, 'From a list you have');
  await title(page, 'A list you have');
  const file = (name, buffer) => page.locator('input[type=file]').setInputFiles({ name, mimeType: 'text/csv', buffer });
  await file('stock.xlsx', Buffer.from([0x50, 0x4b, 3, 4, 0, 0, 0, 0]));
  await page.getByText('This is no table of text.').waitFor();
  await file('empty.csv', Buffer.from(''));
  await page.getByText('No lot can be read with these columns.').waitFor();

  const signs = ['', ' ', '"', '""'];
  const row = (at) => {
    if (at % 97 === 0) return `Cattleya ${at},some,Bench 1,`;
    if (at % 89 === 0) return '';
    return `${signs[at % 2]}Cymbidium ${at}${signs[at % 2]},${at % 6 + 1},Bench ${at % 12},${at % 3 === 0 ? `${2020 + at % 6}` : ''}`;
  };
  const rows = Array.from({ length: 2000 }, (_, at) => row(at + 1));
  const bad = rows.filter((one) => one.includes(',some,')).length;
  const none = rows.filter((one) => one === '').length;
  await file('stock.csv', Buffer.from(['Plant,Plants,Bench,Potted', ...rows].join('\n')));
  const good = 2000 - bad - none;
  await page.getByText(`${bad} rows are not taken, and why`).waitFor();
  await picture(page, 'list-many');
  await press(page, `Take in ${good} lots`);
  await title(page, 'Stock');
  await page.getByText(`Recorded: ${good} lots from the list`).waitFor();
  const summary = new RegExp(`^1\\W${String(good).slice(1)} lots`);
  await page.getByText(summary).first().waitFor();
  await page.reload();
  await page.getByText(summary).first().waitFor();
  assert.deepEqual(complaints, []);
});

phoneTest('sixty places stand whole on the plan and on paper, and one of them is chosen from the phone\'s own list', { width: 320, height: 568, scale: 1 }, async ({ page, complaints }) => {
  await ownBook(page);
  await follow(page, 'From a list you have');
  await title(page, 'A list you have');
  const house = (at) => ['Cold frame beside the water tank', 'Long propagation bench', 'Shade'][at % 3];
  const rows = Array.from({ length: 60 }, (_, at) => `Cattleya ${at},2,${house(at)} ${String(at).padStart(2, '0')}`);
  await page.locator('input[type=file]').setInputFiles({ name: 'stock.csv', mimeType: 'text/csv', buffer: Buffer.from(['Plant,Plants,Bench', ...rows].join('\n')) });
  await press(page, 'Take in 60 lots');
  await title(page, 'Stock');
  await page.evaluate(() => { location.hash = '#/round/plan'; });
  await title(page, 'The nursery');
  const benches = page.locator('.plan a');
  await eventually(page, async () => assert.equal(await benches.count(), 60));
  const cut = await benches.evaluateAll((all) => all.filter((bench) => bench.scrollWidth > bench.clientWidth || bench.getBoundingClientRect().right > innerWidth).map((bench) => bench.textContent));
  assert.deepEqual(cut, []);
  await picture(page, 'plan-sixty');
  const pages = pagesOf(await page.pdf({ format: 'A4' }));
  assert.ok(pages.length <= 3, `${pages.length} pages`);
  // No page is bare, and the benches begin on the first.
  for (const [at, { shapes }] of pages.entries()) assert.ok(shapes.length > 4, `page ${at + 1}`);

  await page.evaluate(() => { location.hash = '#/stock/new'; });
  await page.getByLabel('Place', { exact: true }).selectOption({ label: 'Shade 29' });
  await page.getByLabel('Name of the plant').fill('Lycaste aromatica');
  await picture(page, 'place-of-sixty');
  await press(page, 'Add this lot');
  await title(page, 'In the book');
  await page.evaluate(() => { location.hash = '#/stock'; });
  await title(page, 'Stock');
  await page.getByLabel('Find a lot').fill('lycaste');
  await eventually(page, async () => assert.match(await page.locator('.lot-row').innerText(), /Lycaste aromatica[^]*Shade 29/));
  assert.deepEqual(complaints, []);
});

// Every screen in both themes, with a book in which everything the vocabulary can say has happened: nothing cut off,
// nothing axe minds, and a picture of each to look at.
import assert from 'node:assert/strict';
import { fileURLToPath } from 'node:url';
import { go } from './hand.mjs';
import { axe, phoneTest, picture } from './harness.mjs';

const book = fileURLToPath(new URL('../golden/book-1.txt', import.meta.url));
const fixed = ['#/', '#/round/task', '#/repot', '#/repot/new', '#/repot/new/cut', '#/repot/prepare', '#/repot/hands', '#/help/round', '#/stock/benches', '#/stock/outlook', '#/treat', '#/treat/record', '#/stock', '#/stock/new', '#/stock/list', '#/stock/labels', '#/stock/find', '#/stock/lists', '#/book', '#/book/files',
  '#/book/photographs', '#/book/folder', '#/book/phones',
  '#/book/questions', '#/shed', '#/shed/places', '#/shed/pots', '#/shed/mixes', '#/shed/measures',
  '#/shed/products', '#/shed/rotation', '#/shed/protocols', '#/shed/phone', '#/shed/origins', '#/shed/wash',
  '#/shed/batches', '#/round/water', '#/shed/feeds', '#/shed/feeds/none'];

/** One of each kind of page that belongs to a thing, found by the links of the lists. */
async function found(page, list, pattern) {
  await show(page, list);
  const hrefs = await page.locator('a[href]').evaluateAll((links) => links.map((link) => link.getAttribute('href')));
  return hrefs.filter((href) => pattern.test(href));
}

async function show(page, hash) {
  await go(page, hash);
  await page.locator('h1').first().waitFor();
}

async function look(page, hash, name) {
  await show(page, hash);
  await picture(page, name);
  assert.deepEqual(await axe(page), [], `${name} at ${hash}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(wide, 0, `${name} is wider than the phone`);
}

for (const colorScheme of ['light', 'dark']) {
  phoneTest(`every screen is whole and clear in ${colorScheme}`, { colorScheme }, async ({ page, complaints }) => {
    await page.getByRole('link', { name: 'From a file' }).click();
    await page.locator('input[type=file]').setInputFiles(book);
    await page.getByRole('button', { name: 'Take it in' }).click();
    await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor();
    for (const hash of fixed) await look(page, hash, `${colorScheme}-${hash.replace(/\W+/g, '-').replace(/^-|-$/g, '') || 'round'}`);
    await show(page, '#/repot/new');
    await page.getByRole('button', { name: 'Not in the book' }).click();
    await page.getByRole('button', { name: 'Open it' }).click();
    await page.getByText('To flower').first().waitFor();
    const things = [
      ['lot', (await found(page, '#/stock', /^#\/lot\/[^/]+$/))[0]],
      ['entry', (await found(page, '#/book', /^#\/entry\//))[0]],
      ['clump', (await found(page, '#/repot', /^#\/repot\/(?!new)[^/]+$/))[0]],
      ['place', (await found(page, '#/shed/places', /^#\/shed\/places\/./))[0]],
      ['place-seen', (await found(page, '#/shed/places', /^#\/shed\/places\/./))[0].replace(/^#\/shed\/places\/(.+)$/, '#/place/$1/seen')],
      ['water-bench', (await found(page, '#/round/water', /^#\/round\/water\/./))[0]],
      ['feeding', (await found(page, '#/round/water', /^#\/round\/water\/./))[0].replace('/water/', '/feed/')],
      ['protocol', (await found(page, '#/shed/protocols', /^#\/shed\/protocols\/./))[0]],
    ];
    for (const [kind, hash] of things) {
      assert.ok(hash, `the book shows no ${kind}`);
      await look(page, hash, `${colorScheme}-${kind}`);
      if (kind === 'lot' || kind === 'clump') await look(page, `${hash}/seen`, `${colorScheme}-${kind}-seen`);
      if (kind === 'lot') await look(page, `${hash}/papers`, `${colorScheme}-lot-papers`);
      if (kind === 'lot' || kind === 'clump') await look(page, `${hash}/cut`, `${colorScheme}-${kind}-cut`);
      if (kind === 'lot') await look(page, `${hash}/line`, `${colorScheme}-line`);
    }
    assert.deepEqual(complaints, []);
  });
}

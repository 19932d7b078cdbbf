// The whole job on one phone: a first start, a few lots, the round, a repot of a clump of three pots with the browser
// killed half-way, and the book handed over to a second phone.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { eventually, follow, press, room, startBook, title } from './hand.mjs';
import { axe, close, kill, open, phoneTest, picture, reopen } from './harness.mjs';


async function addLot(page, name, plants, place) {
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill(name);
  for (let plant = 1; plant < plants; plant += 1) await press(page, 'One more: Plants');
  const known = page.getByRole('radio', { name: place, exact: true });
  if ((await known.count()) === 0) await page.getByLabel('Name of the new place').fill(place);
  else await known.check({ force: true });
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
  await page.waitForTimeout(400);
}

const count = async (page, label) => page.locator('.count', { hasText: label }).locator('.count-number').first().innerText();

phoneTest('a clump of three pots is divided, with the battery dying half-way, and a second phone holds the same book', {}, async (phone) => {
  let { page } = phone;
  await picture(page, 'first-start');
  assert.deepEqual(await axe(page), []);
  await startBook(page);
  await addLot(page, 'Cymbidium lowianum', 1, 'Cool house, bench 2');
  await addLot(page, 'Cymbidium lowianum', 2, 'Cool house, bench 2');
  await press(page, 'Open the lot');
  await page.getByRole('heading', { name: 'Its year' }).waitFor();
  await picture(page, 'lot');
  assert.deepEqual(await axe(page), []);
  await follow(page, 'Seen here');
  await picture(page, 'seen-here');
  await press(page, 'Outgrown its pot');
  await page.getByRole('heading', { name: 'Its year' }).waitFor();
  await room(page, 'Stock');
  await title(page, 'Stock');
  await page.getByLabel('Find a lot').fill('lowianun');
  await eventually(page, async () => assert.equal(await page.locator('.lot-row').count(), 2, 'a slip of the finger still finds both lots'));
  await picture(page, 'stock');
  assert.deepEqual(await axe(page), []);

  await room(page, 'Repot');
  await title(page, 'Repot');
  await press(page, 'Clean, new blade each clump');
  await picture(page, 'repot');
  assert.deepEqual(await axe(page), []);
  await follow(page, 'A clump to the bench');
  await page.getByLabel('Name or code').fill('lowianum');
  const choices = page.locator('button.choose');
  await choices.nth(1).waitFor();
  await choices.nth(0).click();
  await page.locator('button.choose[aria-pressed="true"]').first().waitFor();
  await page.locator('button.choose[aria-pressed="false"]').first().click();
  await eventually(page, async () => assert.equal(await page.locator('button.choose[aria-pressed="true"]').count(), 2));
  await picture(page, 'open-clump');
  await press(page, 'Open it');
  await page.getByText('To flower').first().waitFor();
  for (let piece = 0; piece < 4; piece += 1) await press(page, 'One more: To flower');
  for (let piece = 0; piece < 6; piece += 1) await press(page, 'One more: Starters');
  await press(page, 'One more: Thrown away');
  await eventually(page, async () => assert.equal(await count(page, 'Starters'), '6'));
  await picture(page, 'pieces');
  assert.deepEqual(await axe(page), []);

  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await page.getByText('Starters').first().waitFor();
  await eventually(page, async () => {
    assert.equal(await count(page, 'To flower'), '4', 'every tap survived the flat battery');
    assert.equal(await count(page, 'Starters'), '6');
  });

  await press(page, 'To the pots');
  await page.getByText('Write this on the label').waitFor();
  await picture(page, 'pots');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Potted');
  await page.getByText('Starters · 6 pieces').waitFor();
  await room(page, 'Round');
  await page.locator('.bench-row', { hasText: '6 pieces bare' }).waitFor();
  await picture(page, 'round-bare');
  await follow(page, 'Pot them');
  await page.getByText('Starters · 6 pieces').waitFor();
  await press(page, 'Potted');
  await title(page, 'Labels');
  await picture(page, 'labels');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Done');
  await title(page, 'Repot');
  await room(page, 'Round');
  await page.getByText(/No water before/).first().waitFor();
  await picture(page, 'round');
  assert.deepEqual(await axe(page), []);

  await room(page, 'Book');
  await page.getByText(/To flower: 4 potted as/).waitFor();
  await picture(page, 'book');
  assert.deepEqual(await axe(page), []);
  await follow(page, 'Hand over or take in');
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save as a file')]);
  const file = await download.path();
  const text = await readFile(file, 'utf8');
  assert.match(text, /^\{"velamen_book":3,/);
  await picture(page, 'files');

  const other = await open({ timezone: 'Europe/Madrid' });
  try {
    const second = other.page;
    await title(second, "The nursery's book");
    await follow(second, 'From a file');
    const choose = second.locator('input[type=file]');
    await choose.setInputFiles({ name: 'half.txt', mimeType: 'text/plain', buffer: Buffer.from(text.slice(0, text.length / 2)) });
    await second.getByText(/ends early/).waitFor();
    await choose.setInputFiles({ name: 'shopping.txt', mimeType: 'text/plain', buffer: Buffer.from('milk\n') });
    await second.getByText(/not a book/).waitFor();
    await choose.setInputFiles({ name: 'book.txt', mimeType: 'text/plain', buffer: Buffer.from(text) });
    await second.getByText(/entries new/).waitFor();
    await picture(second, 'take-in');
    await press(second, 'Take it in');
    await title(second, 'Round');
    await room(second, 'Stock');
    await second.locator('.lot-row').nth(1).waitFor();
    const codes = async (on) => (await on.locator('.stake-code').allInnerTexts()).sort();
    await room(page, 'Stock');
    await title(page, 'Stock');
    await page.locator('.lot-row').nth(1).waitFor();
    await eventually(page, async () => assert.deepEqual(await codes(second), await codes(page), 'both phones hold the same lots under the same codes'));

    const fingerprint = async (on) => {
      await room(on, 'Book');
      await follow(on, 'Hand over or take in');
      return on.locator('.fingerprint').innerText();
    };
    await eventually(second, async () => assert.notEqual(await fingerprint(second), await fingerprint(page), 'only the second phone knows that it joined'));
    const [answer] = await Promise.all([second.waitForEvent('download'), press(second, 'Save as a file')]);
    await page.locator('input[type=file]').setInputFiles(await answer.path());
    await page.getByText('1 entry new').waitFor();
    await press(page, 'Take it in');
    await title(page, 'Round');
    await eventually(page, async () => {
      const letters = await fingerprint(page);
      assert.match(letters, /^[A-Z]{8}$/);
      assert.equal(await fingerprint(second), letters, 'both phones hold the same entries and read them to the same facts');
    });
    await picture(page, 'fingerprint');
  } finally {
    await close(other);
  }
});

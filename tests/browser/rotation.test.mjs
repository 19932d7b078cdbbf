// What plants had before: a strip of codes on the bath and on the lot's page, why a product is advised against, a true
// change from the shelf, a reason that goes into the record, and the table that can be changed.
import assert from 'node:assert/strict';
import { eventually, go, pick, press, room, tap, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

async function lot(page) {
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill('Zygopetalum maculatum');
  await tap(page, 'One more: Plants', 3);
  await page.getByLabel('Name of the new place').fill('Cool house');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
}

async function putOnShelf(page, name) {
  await page.getByLabel('Name on the label').fill(name);
  await page.getByLabel("The label's rate").fill('1 g/L');
  await press(page, 'Put it on the shelf');
  await page.getByText('Does its label name dipping?').waitFor();
}

/** From the chosen bottle to what goes in, with the one lot in it. */
async function toTheTub(page) {
  await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Fungus' }).click();
  await press(page, 'One more: Minutes in it');
  await page.getByLabel('Litres', { exact: true }).last().fill('10');
  await press(page, 'Safety, then mix');
  await title(page, 'Before you open it');
  await press(page, 'All so: mixed');
  await title(page, 'What goes in');
  await page.getByLabel('A lot from the book').fill('Zygo');
  await page.locator('button.choose', { hasText: 'Zygopetalum' }).first().click();
  await pick(page, 'at once');
}

phoneTest('one way of acting twice running is advised against, and goes on with a reason', {}, async (phone) => {
  let { page } = phone;
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await lot(page);

  await room(page, 'Treat');
  await title(page, 'Treat');
  await press(page, 'Make a bath');
  await putOnShelf(page, 'Thiophanate-methyl');
  await toTheTub(page);
  await page.getByText('Nothing on record, neither theirs').waitFor();
  await page.getByText('This product may follow.').waitFor();
  await picture(page, 'rotation-first');
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
  await press(page, 'Out now');
  await title(page, 'What goes in');
  await press(page, 'Empty the tub');
  await press(page, 'It is empty');

  await title(page, 'Treat');
  await press(page, 'Make a bath');
  await press(page, 'Another bottle');
  await putOnShelf(page, 'Chlorothalonil');
  await press(page, 'Take another bottle');
  await press(page, 'Another bottle');
  await putOnShelf(page, 'Carbendazim');
  await toTheTub(page);
  await page.getByText('FRAC 1: 1 use in a row already').waitFor();
  await page.locator('li', { hasText: 'Chlorothalonil · FRAC M05' }).waitFor();
  const strip = page.getByRole('figure', { name: /^What they had before: FRAC 1 on / });
  await strip.scrollIntoViewIfNeeded();
  await picture(page, 'rotation-advised');
  assert.deepEqual(await axe(page), []);
  await page.emulateMedia({ colorScheme: 'dark' });
  await picture(page, 'rotation-advised-dark');
  assert.deepEqual(await axe(page), []);
  await page.emulateMedia({ colorScheme: 'light' });
  await page.setViewportSize({ width: 320, height: 568 });
  await strip.scrollIntoViewIfNeeded();
  await picture(page, 'rotation-narrow');
  await eventually(page, async () => assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= 320), 'nothing hangs over the edge'));
  await page.setViewportSize({ width: 390, height: 844 });

  await press(page, 'Last piece goes in');
  await page.getByText('Say why it is used all the same').waitFor();
  await page.getByLabel('Why it is used all the same').fill('nothing else acts on it here');
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'What goes in');
  await eventually(page, async () => assert.equal(await page.getByLabel('Why it is used all the same').inputValue(), 'nothing else acts on it here'));
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
  await press(page, 'Out now');
  await title(page, 'What goes in');
  await room(page, 'Treat');
  await page.getByText('Bathed with Carbendazim').first().click();
  await page.getByText('nothing else acts on it here').waitFor();

  await room(page, 'Stock');
  await page.locator('a', { hasText: 'Zygopetalum' }).first().click();
  const had = page.getByRole('figure', { name: /^What they had before: FRAC 1 on .*, FRAC 1 on / });
  await had.scrollIntoViewIfNeeded();
  await picture(page, 'rotation-lot');
  assert.deepEqual(await axe(page), []);
  assert.deepEqual(phone.complaints, []);
});

phoneTest('the rules for changing products are the grower\'s, over a dead battery', { scale: 1 }, async (phone) => {
  let { page } = phone;
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await go(page, '#/shed/rotation');
  await title(page, 'Change of products');
  await page.getByLabel('Another code').fill('7');
  await press(page, 'Add this code');
  await page.getByText('Type a code with its list').waitFor();
  await page.getByLabel('Another code').fill('FRAC 7');
  await press(page, 'Add this code');
  const row = page.locator('details', { hasText: 'FRAC 7' });
  await row.locator('summary').click();
  await row.getByRole('button', { name: 'One fewer: Uses in a row' }).or(row.getByRole('button', { name: 'One less: Uses in a row' })).first().click();
  await row.getByText('1 in a row').waitFor();
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'Change of products');
  await page.locator('details', { hasText: 'FRAC 7' }).locator('summary').click();
  await page.getByText('1 in a row').first().waitFor();
  await picture(page, 'rotation-rules');
  assert.deepEqual(await axe(page), []);
  await page.emulateMedia({ colorScheme: 'dark' });
  assert.deepEqual(await axe(page), []);
  await press(page, 'Keep these rules');
  await page.getByText('Rules kept.').waitFor();
  await room(page, 'Book');
  await page.getByText('The rules for changing products were changed.').waitFor();
  assert.deepEqual(phone.complaints, []);
});

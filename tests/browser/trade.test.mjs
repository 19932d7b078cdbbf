// What the trade wants of a book: plants kept for somebody, what things cost, what a piece has cost, bags to bring.
import assert from 'node:assert/strict';
import { choose, eventually, follow, go, press, room, tap, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

const within = async (page, name) => {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(wide, 0, `${name} is wider than the phone`);
};

/** A book with one lot of so many; leaves the phone on the lot's page, and gives its code. */
async function oneLot(page, name, plants) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await go(page, '#/stock/new');
  await page.getByLabel('Name of the plant').fill(name);
  for (let count = 1; count < plants; count += 1) await press(page, 'One more: Plants');
  await page.getByLabel('Name of the new place').fill('Cool house, bench 2');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
  const code = await page.locator('.stake-code').innerText();
  await press(page, 'Open the lot');
  await title(page, code);
  return code;
}

const sheet = (page) => page.locator('dialog[open]');
const kept = (page) => page.locator('section', { hasText: 'Kept for somebody' });

phoneTest('plants are kept for somebody, sold to her, let go, and no others are sold without being asked', {}, async (phone) => {
  let { page } = phone;
  const code = await oneLot(page, 'Cymbidium lowianum', 6);
  await press(page, 'Change');
  await press(page, 'Keep for somebody');
  await tap(page, 'One more: Plants kept', 3);
  await page.getByLabel('For whom').fill('Ana, order 7');
  await page.getByLabel('Until', { exact: true }).fill('2031-05-03');
  await eventually(page, async () => assert.equal(await page.getByLabel('Until', { exact: true }).inputValue(), '2031-05-03'));
  await picture(page, 'trade-keep');
  assert.deepEqual(await axe(page), []);
  // Half done, it outlives a dead battery.
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await sheet(page).getByText('Plants kept').waitFor();
  await eventually(page, async () => assert.equal(await page.getByLabel('For whom').inputValue(), 'Ana, order 7'));
  await press(page, 'Keep them');
  await kept(page).getByText('4 plants for Ana, order 7, until 3 May 2031').waitFor();
  await kept(page).getByText('2 free').waitFor();
  await picture(page, 'trade-kept');
  assert.deepEqual(await axe(page), []);
  await within(page, 'the lot');

  // More than are free, and more than there are: a sentence each, and what was typed stays.
  await press(page, 'Change');
  await press(page, 'Sold');
  await tap(page, 'One more: Plants sold', 6);
  await press(page, 'Record the sale');
  await page.locator('.field-error', { hasText: 'There are only' }).waitFor();
  await tap(page, 'One less: Plants sold', 4);
  await press(page, 'Record the sale');
  await page.locator('.field-error', { hasText: 'Only 2 are free: 4 are kept for somebody.' }).waitFor();
  await picture(page, 'trade-asks');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Sell them all the same');
  await kept(page).getByText('3 plants for Ana, order 7').waitFor();
  await kept(page).getByText('none free').waitFor();

  await room(page, 'Stock');
  await page.locator('.lot-row', { hasText: '3 kept for Ana, order 7' }).waitFor();
  await picture(page, 'trade-stock');
  await page.getByLabel('Find a lot').fill('ana');
  await page.getByText('1 found').waitFor();
  await page.locator('.lot-row', { hasText: code }).click();
  await title(page, code);
  await press(page, 'Sell these');
  await sheet(page).getByText('Out of those kept for Ana, order 7.').waitFor();
  await press(page, 'One less: Plants sold');
  await page.getByLabel('Price of all together').fill('24,50');
  await press(page, 'Record the sale');
  await kept(page).getByText('1 plant for Ana, order 7').waitFor();
  await page.locator('.fact', { hasText: '1plant' }).waitFor();
  await press(page, 'Let them go');
  await kept(page).waitFor({ state: 'detached' });
  await room(page, 'Book');
  await page.getByText('1 plant kept no longer').first().waitFor();
  await page.getByText('sold to Ana, order 7').first().waitFor();
  assert.deepEqual(phone.complaints, []);
});

/** Types the size and the price of a thing. */
async function price(page, what, size, cost) {
  await page.locator('button.choose', { hasText: what }).first().click();
  await sheet(page).waitFor();
  if (size) await sheet(page).getByLabel(/Litres in a bag|Pieces in a pack|A bottle holds/).fill(size);
  await sheet(page).getByLabel(/^(Price of|A square metre)/).fill(cost);
}

phoneTest('what things cost is typed once, and what a piece has cost says what is not in it', {}, async (phone) => {
  let { page } = phone;
  const code = await oneLot(page, 'Cymbidium lowianum', 1);
  await room(page, 'Repot');
  await press(page, 'Clean, new blade each clump');
  await follow(page, 'A clump to the bench');
  await page.locator('.choose', { hasText: code }).click();
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await tap(page, 'One more: To flower', 3);
  await press(page, 'To the pots');
  await page.getByText('To flower · 3 pieces', { exact: true }).waitFor();
  await page.locator('.choice', { hasText: '17 cm' }).first().click();
  await press(page, 'Potted');
  await title(page, 'Labels');
  await press(page, 'Done');
  await title(page, 'Repot');

  await go(page, '#/stock');
  await page.locator('.lot-row', { hasText: 'Cymbidium lowianum' }).first().click();
  await follow(page, 'What it has cost so far');
  await title(page, 'What it has cost');
  await page.getByText('Nothing that went into it has a price yet.').waitFor();
  await page.getByText('Labels: no price, not counted.').first().waitFor();
  await picture(page, 'trade-no-price');
  assert.deepEqual(await axe(page), []);
  await follow(page, 'What things cost');
  await title(page, 'What things cost');
  await page.locator('button.choose', { hasText: 'Your money' }).click();
  await sheet(page).getByLabel('Your money').fill('€');
  await press(page, 'Keep this');
  await page.locator('button.choose', { hasText: '€' }).waitFor();

  await price(page, 'Drainage stone', '20', 'dear');
  await press(page, 'Keep this');
  await sheet(page).getByText('Type the price as a number').waitFor();
  await eventually(page, async () => assert.equal(await sheet(page).getByLabel('Price of one').inputValue(), 'dear'));
  await sheet(page).getByLabel('Price of one').fill('4');
  await sheet(page).getByLabel('Litres in a bag').fill('0');
  await press(page, 'Keep this');
  await sheet(page).getByText('Type a number above nothing').waitFor();
  await sheet(page).getByLabel('Litres in a bag').fill('20');
  await picture(page, 'trade-price');
  assert.deepEqual(await axe(page), []);
  // Half typed, it outlives a dead battery.
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await sheet(page).getByLabel('Litres in a bag').waitFor();
  await eventually(page, async () => assert.equal(await sheet(page).getByLabel('Litres in a bag').inputValue(), '20'));
  await press(page, 'Keep this');
  await page.locator('button.choose', { hasText: '20 L: 4.00 €' }).waitFor();
  await price(page, 'Labels', '100', '1.50');
  await press(page, 'Keep this');
  await page.locator('button.choose', { hasText: '100 pieces: 1.50 €' }).waitFor();
  await price(page, 'Pot 17 cm', '', '0.40');
  await press(page, 'Keep this');
  await page.locator('button.choose', { hasText: '0.40 € each' }).waitFor();
  await picture(page, 'trade-prices');
  assert.deepEqual(await axe(page), []);
  await within(page, 'prices');

  await go(page, '#/stock');
  await page.locator('.lot-row', { hasText: 'Cymbidium lowianum' }).first().click();
  await follow(page, 'What it has cost so far');
  await page.getByText('Pot 17 cm, 3: 1.20 €').first().waitFor();
  await page.getByText('Labels, 3: 0.05 €').first().waitFor();
  await page.getByText('3 of 3 plants live or were sold').first().waitFor();
  await page.getByRole('heading', { name: 'The division under tray tag 1' }).waitFor();
  await page.getByText('Watering, feeding, walking round, and later work.').first().waitFor();
  await picture(page, 'trade-cost');
  assert.deepEqual(await axe(page), []);
  await within(page, 'the cost');
  assert.deepEqual(phone.complaints, []);
});

phoneTest('what to bring is counted in bags of the size that is bought', {}, async ({ page, complaints }) => {
  await oneLot(page, 'Cymbidium lowianum', 1);
  await follow(page, 'What would it become?');
  await title(page, 'Before the cut');
  await tap(page, 'One more: Bulbs, roughly', 18);
  await choose(page, 'Few large', 'What do you want?');
  await press(page, 'Plan it so');
  await page.getByText('Few large: ').first().waitFor();
  await go(page, '#/repot/prepare');
  await title(page, 'To the bench');
  await page.locator('.choose', { hasText: 'label' }).waitFor();
  await follow(page, 'Sizes of bags and packs');
  await title(page, 'What things cost');
  await page.locator('button.choose', { hasText: 'Labels' }).first().click();
  await sheet(page).getByLabel('Pieces in a pack').fill('50');
  await press(page, 'Keep this');
  await page.locator('button.choose', { hasText: '50 pieces. No price yet' }).waitFor();
  await page.locator('button.choose', { hasText: 'bark' }).first().click();
  await sheet(page).getByLabel('Litres in a bag').fill('2');
  await press(page, 'Keep this');
  await page.locator('button.choose', { hasText: '2 L. No price yet' }).waitFor();
  await go(page, '#/repot/prepare');
  await page.locator('.choose', { hasText: '1 pack of 50' }).waitFor();
  await page.locator('.choose', { hasText: /\d+ bags? of 2 L/ }).first().waitFor();
  await picture(page, 'trade-bags');
  assert.deepEqual(await axe(page), []);
  await within(page, 'what to bring');
  assert.deepEqual(complaints, []);
});

phoneTest('what cannot be gets one clear sentence each, and nothing typed is lost', {}, async ({ page, complaints }) => {
  const code = await oneLot(page, 'Cymbidium lowianum', 2);
  // Nobody counts fewer than none: the key stops there, and the pad has no sign.
  await press(page, 'Change');
  await press(page, 'Counted');
  const less = sheet(page).getByRole('button', { name: 'One less: Plants', exact: true });
  await less.click();
  await less.click();
  await eventually(page, async () => assert.equal(await less.getAttribute('aria-disabled'), 'true'));
  for (let tapped = 0; tapped < 3; tapped += 1) await less.click({ force: true });
  const plants = sheet(page).locator('.count-number').first();
  await eventually(page, async () => assert.equal(await plants.innerText(), '0'));
  await sheet(page).getByRole('button', { name: 'Type the number' }).first().click();
  const keys = await sheet(page).locator('.pad-key').allInnerTexts();
  assert.ok(keys.length > 0 && keys.every((key) => !/[-\u2212]/.test(key)), keys.join(' '));
  await sheet(page).getByRole('button', { name: 'That is the number' }).first().click();
  await eventually(page, async () => assert.equal(await plants.innerText(), '0'));
  await page.locator('dialog[open] .sheet-close').click();

  await go(page, '#/shed/pots');
  await page.getByLabel('What you call it').fill('flat one');
  const measure = (what) => page.getByRole('textbox', { name: what, exact: true });
  await measure('Across the top').fill('17 cm');
  await measure('Across the base').fill('12 cm');
  await measure('Height').fill('0 cm');
  await press(page, 'Add this pot');
  await page.getByText('Every measure of the pot has to be more than nothing.').first().waitFor();
  await eventually(page, async () => assert.equal(await measure('Height').inputValue(), '0 cm'));

  await room(page, 'Repot');
  await press(page, 'Clean, new blade each clump');
  await follow(page, 'A clump to the bench');
  await page.locator('.choose', { hasText: code }).click();
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await tap(page, 'One more: Starters', 2);
  await press(page, 'To the pots');
  await page.getByText('Starters · 2 pieces', { exact: true }).waitFor();
  await page.locator('.choice', { hasText: '9 cm' }).first().click();
  // More than came off cannot be potted at once.
  const more = page.getByRole('button', { name: 'One more: Pieces now', exact: true });
  await eventually(page, async () => assert.equal(await more.getAttribute('aria-disabled'), 'true'));
  await tap(page, 'More stone', 18);
  await page.getByText('Stone and headspace leave no room for mix. Use less stone.').waitFor();
  await picture(page, 'trade-too-much-stone');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Potted');
  await page.getByText('Stone and headspace leave no room for mix. Use less stone.').first().waitFor();
  await page.getByText('Starters · 2 pieces', { exact: true }).waitFor();
  assert.deepEqual(complaints, []);
});

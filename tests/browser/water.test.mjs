// The round with the hose: a bench in one tap, exceptions picked out, undone; a feed by its nitrogen in a can and through
// an injector, put right and read again in the Book.
import assert from 'node:assert/strict';
import { choose, follow, press, room, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

async function ownBook(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
}

async function addLot(page, name, isNew) {
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill(name);
  if (isNew) await page.getByLabel('Name of the new place').fill('Cool house');
  else await choose(page, 'Cool house');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
}

async function water(page) {
  await room(page, 'Round');
  await title(page, 'Round');
  await page.getByRole('link', { name: /^Water/ }).click();
  await title(page, 'Water and feed');
}

for (const colorScheme of ['light', 'dark']) {
  phoneTest(`a bench is watered in one tap, with what was picked out left dry, ${colorScheme}`, { colorScheme }, async (phone) => {
    let { page } = phone;
    await ownBook(page);
    await addLot(page, 'Cattleya labiata', true);
    await addLot(page, 'Zygopetalum maculatum', false);
    await water(page);
    await page.getByText('Look and lift a pot', { exact: true }).waitFor();
    await picture(page, `water-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
    // One is picked out; a battery that dies now forgets nothing.
    await follow(page, 'Exceptions, days');
    await title(page, 'Cool house');
    await page.getByText('2 of 2 lots').waitFor();
    await page.locator('.choose', { hasText: 'Cattleya' }).click();
    await page.getByText('1 of 2 lots').waitFor();
    await picture(page, `water-bench-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
    await kill(phone);
    phone = await reopen(phone);
    ({ page } = phone);
    await title(page, 'Cool house');
    await page.getByText('1 of 2 lots').waitFor();
    await press(page, 'Watered');
    await title(page, 'Water and feed');
    await page.getByText('Watered: Cool house, without 1 lot.').waitFor();
    await page.getByText('Look and lift a pot: 1 of 2 lots').waitFor();
    // The other one too, from the list: one tap. Undone, it is as it was.
    await press(page, 'All watered: Cool house');
    await page.getByText('Watered: Cool house.').waitFor();
    await page.getByText('Not yet to be looked at').waitFor();
    await press(page, 'Undo');
    await page.getByText('Look and lift a pot: 1 of 2 lots').waitFor();
    await press(page, 'All watered: Cool house');
    await page.getByText('Not yet to be looked at').waitFor();
    // The lot says what it got.
    await room(page, 'Stock');
    await page.locator('.lot-row', { hasText: 'Zygopetalum' }).first().click();
    await page.getByText('Watered, hose').first().waitFor();
    await picture(page, `water-lot-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
    assert.deepEqual(phone.complaints, []);
  });
}

phoneTest('a feed is measured by its nitrogen, for a can and for an injector, and put right in the Book', {}, async (phone) => {
  const { page } = phone;
  await ownBook(page);
  await addLot(page, 'Cattleya labiata', true);
  await water(page);
  await follow(page, 'Feed this bench');
  await title(page, 'Feed');
  await follow(page, 'Another feed');
  await title(page, 'Another feed');
  await press(page, 'Add the feed');
  await page.getByText('Fill in what you call it.').waitFor();
  await page.getByLabel('What you call it').fill('Growing feed');
  await page.getByLabel('The three figures').fill('20-10-20');
  await page.getByLabel('Nitrogen, N').fill('much');
  await press(page, 'Add the feed');
  await page.getByText('Type the nitrogen of the label as a number').waitFor();
  await page.getByLabel('Nitrogen, N').fill('20');
  await page.getByLabel('Conductivity, if the label says').fill('1.2');
  await picture(page, 'feed-label');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Add the feed');
  await title(page, 'Feed');
  await choose(page, 'Growing feed');
  // 10 L at 100 mg/L of a feed with a fifth of nitrogen: 5 g, and 0.6 mS/cm on top.
  await page.locator('.amount', { hasText: '5' }).getByText('g, made up to 10 L').waitFor();
  await page.getByText('Expect about 0.60 mS/cm').waitFor();
  await page.getByLabel('Nitrogen wanted').fill('');
  await page.getByText('Fill in the nitrogen wanted.').waitFor();
  await page.getByLabel('Nitrogen wanted').fill('80');
  await choose(page, 'Stock of an injector');
  await page.getByText('g, made up to 10 L').waitFor();
  await page.getByText('Enough for 1000 L at the plants.').waitFor();
  await page.locator('.amount bdi', { hasText: '400' }).waitFor();
  await page.getByLabel('Conductivity as measured').fill('0.75');
  await picture(page, 'feeding');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Fed');
  await title(page, 'Water and feed');
  await page.getByText('Fed: Cool house.').waitFor();
  await page.getByText(/fed today, 80 mg\/L of nitrogen/).waitFor();
  await picture(page, 'water-fed');

  await room(page, 'Book');
  const sentence = page.getByText('Fed with Growing feed: Cool house, 80 mg/L of nitrogen.').first();
  await sentence.waitFor();
  await sentence.click();
  await title(page, 'One entry');
  await page.getByText('400 g, made up to 10 L of stock, 1:100.').waitFor();
  await page.getByText('0.75 mS/cm measured.').waitFor();
  await page.waitForTimeout(400);
  await page.getByRole('button', { name: 'Correct this' }).first().click();
  await page.getByLabel('Nitrogen wanted').fill('60');
  await press(page, 'Keep the correction');
  await page.getByText('Fed with Growing feed: Cool house, 60 mg/L of nitrogen.').first().waitFor();
  await page.getByText('300 g, made up to 10 L of stock, 1:100.').waitFor();
  assert.deepEqual(phone.complaints, []);
});

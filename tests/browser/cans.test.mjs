// Bottles on the shelf: a bath takes from one over a flat battery, more than it held is said and recorded, it is counted
// again; a list of a state is changed; what to buy is ticked off.
import assert from 'node:assert/strict';
import { eventually, go, pick, press, room, tap, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

async function start(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill('Zygopetalum maculatum');
  await tap(page, 'One more: Plants', 3);
  await page.getByLabel('Name of the new place').fill('Cool house');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
}

async function product(page) {
  await go(page, '#/shed/products');
  await title(page, 'Products');
  await page.getByLabel('Name on the label').fill('Example liquid');
  await press(page, 'Put it on the shelf');
  await title(page, 'Example liquid');
}

async function container(page, holds, more = async () => {}) {
  await page.getByRole('link', { name: 'Put a container on the shelf' }).click();
  await title(page, 'A container for the shelf');
  await page.getByLabel('It holds, as it says').fill(holds);
  await more();
  await press(page, 'Put a container on the shelf');
}

/** A bath of 20 L, 30 mL of product, with the one lot in it, out at once. */
async function mix(page) {
  await go(page, '#/treat');
  await title(page, 'Treat');
  await press(page, 'Make a bath');
  await page.waitForTimeout(400);
  await page.locator('.pick', { hasText: 'Example liquid' }).click();
  await page.locator('.choice', { hasText: 'Fungus' }).click();
  await page.getByLabel('Litres', { exact: true }).last().fill('20');
}

async function bathe(page) {
  await press(page, 'Safety, then mix');
  await title(page, 'Before you open it');
  await press(page, 'All so: mixed');
  await title(page, 'What goes in');
  await page.getByLabel('A lot from the book').fill('Zygo');
  await page.locator('button.choose', { hasText: 'Zygopetalum' }).first().click();
  await pick(page, 'at once');
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
}

phoneTest('a bath takes from its bottle, and more than it held is said, recorded and counted again', {}, async (phone) => {
  let { page } = phone;
  await start(page);
  await product(page);
  await page.getByText('None yet. With its bottles here').waitFor();
  await container(page, '50', async () => {
    await press(page, 'Put a container on the shelf');
    await page.getByText('Add the unit: 500 mL, 1 kg.').waitFor();
    await page.getByLabel('It holds, as it says').fill('50 mL');
    await page.getByLabel('Batch number on it').fill('B 7');
    await page.getByLabel('Left in it now').fill('60');
    await press(page, 'Put a container on the shelf');
    await page.getByText('That is more than it holds.').waitFor();
    assert.equal(await page.getByLabel('Batch number on it').inputValue(), 'B 7', 'nothing typed is lost');
    await page.getByLabel('Left in it now').fill('');
    await picture(page, 'cans-new');
    assert.deepEqual(await axe(page), []);
  });
  await title(page, 'Example liquid');
  await page.getByText('50 mL left of 50 mL').waitFor();

  await press(page, 'Add a use of the label');
  await pick(page, 'Dipping');
  await page.getByLabel('Rate, the lowest where it gives two').fill('1.5 mL/L');
  await page.getByLabel('Minutes in a dip, as the label says').fill('10');
  await press(page, 'Keep the label so');
  await title(page, 'Products');

  await mix(page);
  await page.getByRole('radio', { name: 'Batch B 7, not opened yet: 50 mL left of 50 mL' }).and(page.locator(':checked')).waitFor({ state: 'attached' });
  await picture(page, 'cans-taken-from');
  assert.deepEqual(await axe(page), []);
  await bathe(page);
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'In the tub');
  await press(page, 'Out now');
  await title(page, 'What goes in');

  // The level fell; it is filled up at its own strength, and the rest goes where the label says.
  await page.getByText('Its level and its dirt').click();
  await page.getByLabel('Litres in it now').fill('16');
  await press(page, 'That is the level');
  await page.getByText('At the strength it was mixed with').waitFor();
  await picture(page, 'cans-top-up');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Topped up: 6 mL in 4 L');
  await page.getByRole('button', { name: 'Topped up: 6 mL in 4 L' }).waitFor({ state: 'detached' });
  await press(page, 'Empty the tub');
  await page.getByText('What dripped under the rack is spent bath too').waitFor();
  await press(page, 'On plants of the label');
  await eventually(page, async () => assert.equal(await page.getByLabel('Where the rest goes').inputValue(), 'On plants of the label'));
  await picture(page, 'cans-end');
  assert.deepEqual(await axe(page), []);
  await press(page, 'It is empty');
  await title(page, 'Treat');

  await go(page, '#/shed/products');
  await page.getByText('Example liquid').click();
  await page.getByText('14 mL left of 50 mL').waitFor();

  // The second bath takes more than is left: said where it is chosen, recorded all the same.
  await mix(page);
  await page.getByText('By what is reckoned only 14 mL are left in it.').waitFor();
  await picture(page, 'cans-lacks');
  assert.deepEqual(await axe(page), []);
  await bathe(page);
  await press(page, 'Out now');
  await title(page, 'What goes in');

  await go(page, '#/book/questions');
  await page.getByText('More Example liquid was taken from a container than it held.').waitFor();
  await page.getByRole('link', { name: 'Count it again' }).click();
  await title(page, 'Example liquid');
  await page.getByText('More was taken than it held. Count it again.').waitFor();
  await picture(page, 'cans-overdrawn');
  assert.deepEqual(await axe(page), []);
  await page.getByLabel('Count it again').fill('5 g');
  await press(page, 'That is what is left');
  await page.getByText('It was filled by volume: type millilitres.').waitFor();
  await page.getByLabel('Count it again').fill('4.5');
  await press(page, 'That is what is left');
  await page.locator('.amount', { hasText: '4.5' }).waitFor();
  await page.getByText('Low: less than a common use takes').waitFor();
  await picture(page, 'cans-counted');
  await go(page, '#/book/questions');
  await page.getByText('No questions.').waitFor();
  assert.deepEqual(phone.complaints, []);
});

phoneTest('a bottle past its date is said, spilt product is taken off, an empty one leaves the shelf', { colorScheme: 'dark' }, async (phone) => {
  const { page } = phone;
  await start(page);
  await product(page);
  await container(page, '1 kg', async () => {
    await page.getByLabel('Good until').fill('2020-01-31');
  });
  await title(page, 'Example liquid');
  await page.getByText('Past its date: it was good until 31 January 2020.').waitFor();
  await picture(page, 'cans-expired-dark');
  assert.deepEqual(await axe(page), []);
  await page.getByText('1 kg left of 1 kg').click();
  await page.getByText('Something left it without treating a plant').click();
  await page.getByLabel('How much').fill('200');
  await page.getByRole('switch', { name: 'It was spilt' }).check({ force: true });
  await page.getByText('Gloves on.').waitFor();
  await press(page, 'Take it off');
  await page.locator('.amount', { hasText: '800' }).waitFor();
  await press(page, 'It is empty, or gone');
  await page.getByText('None yet.').waitFor();
});

phoneTest('a list of rules is the nursery\'s to change, and what to buy says what is planned', {}, async (phone) => {
  const { page } = phone;
  await start(page);
  await go(page, '#/shed/buy');
  await title(page, 'What to buy');
  await page.getByText('No treatment is planned for the next four weeks.').waitFor();
  await go(page, '#/treat/log');
  await title(page, 'Treatment record');
  await pick(page, 'Victoria');
  await page.getByText('wind, for a spray outdoors').first().waitFor();
  await page.getByText('Written down within 2 days, kept 24 months.').waitFor();
  await page.getByText('Change this list').click();
  await page.getByRole('switch', { name: 'who did it' }).uncheck({ force: true });
  await page.getByLabel('Kept for').fill('x');
  await press(page, 'Keep these times');
  await page.getByText('Type whole numbers, or leave it empty.').waitFor();
  await page.getByLabel('Kept for').fill('84');
  await press(page, 'Keep these times');
  await page.getByText('kept 84 months.').waitFor();
  await picture(page, 'cans-rule');
  assert.deepEqual(await axe(page), []);
});

// Measures on the shelf, and an amount as fills of them: few taps, never over the label, and a sentence where no
// measure is fine enough.
import assert from 'node:assert/strict';
import { eventually, pick, press, room, title } from './hand.mjs';
import { axe, phoneTest, picture } from './harness.mjs';

async function book(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
}

/** From the Round to a bath whose amount is worked out. */
async function bath(page, rate, litres) {
  await room(page, 'Treat');
  await press(page, 'Make a bath');
  await page.getByLabel('Name on the label').fill('Copper');
  await page.getByLabel("The label's rate").fill(rate);
  await press(page, 'Put it on the shelf');
  await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Fungus' }).click();
  await press(page, 'One more: Minutes in it');
  await page.getByLabel('Litres', { exact: true }).last().fill(litres);
  await page.locator('.amount').waitFor();
}

phoneTest('an amount is told as fills of the measures on the shelf, one tap each to put there', {}, async (phone) => {
  const { page } = phone;
  await book(page);
  await bath(page, '1.177 mL/L', '20');
  await page.getByText('the fills are worked out here').waitFor();
  await picture(page, 'measure-none');
  await page.getByRole('link', { name: 'Put your measures on the shelf' }).click();
  await title(page, 'Measures');
  await page.getByText('No measures yet').waitFor();
  await press(page, '5 mL syringe');
  await page.locator('summary', { hasText: '5 mL syringe' }).waitFor();
  await page.goBack();
  await title(page, 'Make a bath');
  await page.getByText('5 mL syringe: 4 × 5 mL, then 1 × 3.4 mL').waitFor();
  await page.getByText('23.4 mL in all: 0.6 % under.').waitFor();
  await page.getByText('in all').scrollIntoViewIfNeeded();
  await picture(page, 'measure-fills');
  assert.deepEqual(await axe(page), []);
  await page.getByLabel('Litres', { exact: true }).last().fill('0.2');
  await page.getByText('No measure on the shelf goes so low. In 510 mL of water').waitFor();
  await page.getByText('No measure on the shelf goes').scrollIntoViewIfNeeded();
  await picture(page, 'measure-too-coarse');
  assert.deepEqual(await axe(page), []);
  assert.deepEqual(phone.complaints, []);
});

phoneTest('a measure is typed by its marks, changed, and put away', {}, async (phone) => {
  const { page } = phone;
  await book(page);
  await page.evaluate(() => { location.hash = '#/shed/measures'; });
  await title(page, 'Measures');
  await page.getByLabel('The most it takes').fill('many');
  await press(page, 'Put this measure on the shelf');
  await page.locator('.field-error', { hasText: /./ }).first().waitFor();
  assert.equal(await page.getByLabel('The most it takes').inputValue(), 'many', 'nothing typed is lost');
  await page.getByLabel('The most it takes').fill('2.5');
  await page.getByLabel('From one mark to the next').fill('4');
  await press(page, 'Put this measure on the shelf');
  await page.getByText('Between the least and the most there is no mark').waitFor();
  await page.getByLabel('From one mark to the next').fill('0,05 mL');
  await press(page, 'Put this measure on the shelf');
  await page.locator('summary', { hasText: '2.5 mL syringe' }).waitFor();
  await eventually(page, async () => assert.equal(await page.getByLabel('The most it takes').inputValue(), '', 'the form is empty again'));
  await press(page, '0.1 g scale');
  await page.locator('summary', { hasText: '0.1 g scale' }).waitFor();
  await picture(page, 'measure-shelf');
  assert.deepEqual(await axe(page), []);
  await page.locator('summary', { hasText: '2.5 mL syringe' }).click();
  await page.getByRole('link', { name: 'Change it' }).first().click();
  await title(page, '2.5 mL syringe');
  await page.getByLabel('From one mark to the next').fill('0.1');
  await picture(page, 'measure-change');
  await press(page, 'Keep this change');
  await title(page, 'Measures');
  await page.getByText('marks every 0.1 mL').waitFor();
  await page.locator('summary', { hasText: '2.5 mL syringe' }).click();
  await page.waitForTimeout(400);
  await page.getByRole('button', { name: 'No longer used' }).first().click();
  await page.locator('summary', { hasText: '2.5 mL syringe' }).waitFor({ state: 'detached' });
  assert.deepEqual(phone.complaints, []);
});

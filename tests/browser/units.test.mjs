// The units a grower thinks in: figures are shown in them, a bare number typed means them, and the book stays the same.
import assert from 'node:assert/strict';
import { choose, eventually, go, press, title } from './hand.mjs';
import { axe, phoneTest, picture } from './harness.mjs';

const inUnits = async (page, name) => {
  await go(page, '#/shed/phone');
  // The page starts again at the tap.
  await page.getByRole('group', { name: 'Units' }).getByRole('radio', { name, exact: true }).click({ force: true });
  await eventually(page, async () => assert.equal(await page.getByRole('group', { name: 'Units' }).getByRole('radio', { name, exact: true }).isChecked(), true));
};

phoneTest('gallons, inches and Fahrenheit are shown and typed, and kept as what they are', {}, async ({ page, complaints }) => {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await go(page, '#/stock/new');
  await page.getByLabel('Name of the plant').fill('Cymbidium lowianum');
  await page.getByLabel('Name of the new place').fill('Cool house');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
  await inUnits(page, 'US');
  await picture(page, 'units');
  assert.deepEqual(await axe(page), []);

  // The morning's thermometer.
  await go(page, '#/round/climate');
  await page.getByRole('button', { name: /^Cool house, minimum/ }).click();
  for (const key of ['5', '0']) await page.getByRole('button', { name: key, exact: true }).click();
  await page.getByRole('button', { name: 'Maximum', exact: true }).click();
  for (const key of ['7', '7']) await page.getByRole('button', { name: key, exact: true }).click();
  await page.getByText('°F').first().waitFor();
  await picture(page, 'units-readings');
  // A second tap at the same spot within a third of a second is taken for a drop of water.
  await press(page, 'That is the number');
  await press(page, 'Keep the readings');
  await go(page, '#/book');
  await page.getByText('50 to 77 °F').first().waitFor();

  // Pots by their measures.
  await go(page, '#/shed/pots');
  await page.getByText('3.54 / 2.36 / 3.35 in · 0.40 US qt').waitFor();
  await picture(page, 'units-pots');

  // An area typed without a unit is one of square feet: it is kept, and told in metres to who asks in metres.
  await go(page, '#/shed/places');
  await page.getByRole('link', { name: /Cool house/ }).click();
  await page.getByLabel('Area').fill('100');
  await press(page, 'Keep the area');
  await page.getByRole('button', { name: 'Keep the area' }).waitFor({ state: 'detached' });
  const place = await page.evaluate(() => location.hash);
  await inUnits(page, 'Metric');
  await go(page, '#/book');
  await page.getByText('10 to 25 °C').first().waitFor();
  await go(page, place);
  await eventually(page, async () => assert.equal(await page.getByLabel('Area').inputValue(), '9.29'));
  assert.deepEqual(complaints, []);
});

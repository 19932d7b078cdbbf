// A bottle on the shelf: begun with its name, completed in the Shed over a dead battery, asked back where a rate may mean
// several things, and never mixed stronger than its label allows.
import assert from 'node:assert/strict';
import { eventually, pick, press, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

const link = async (page, name) => {
  await page.waitForTimeout(400);
  await page.getByRole('link', { name, exact: true }).click();
};
const shed = async (page) => {
  await page.evaluate(() => { location.hash = '#/shed'; });
  await title(page, 'Shed');
};

async function start(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
}

phoneTest('a bottle begun with its name is completed in the Shed over a dead battery', {}, async (phone) => {
  let { page } = phone;
  await start(page);
  await shed(page);
  await link(page, 'Products');
  await title(page, 'Products');
  await page.getByText('No bottle on the shelf yet.').waitFor();
  await page.getByLabel('Name on the label').fill('Example liquid');
  await press(page, 'Put it on the shelf');
  await title(page, 'Example liquid');
  await picture(page, 'shelf-missing');
  assert.deepEqual(await axe(page), []);

  // What is missing leads to its field.
  await press(page, 'The registration number');
  await page.getByLabel('Registration number').and(page.locator(':focus')).waitFor();
  await page.getByLabel('Registration number').fill('12345-6');
  await page.getByLabel('Formulation').fill('ec');

  // The active comes from the table with its code; the content asks which per cent is meant.
  await page.getByLabel('Add an active').fill('trifor');
  await page.getByRole('button', { name: 'triforine' }).click();
  await eventually(page, async () => assert.equal(await page.getByLabel('Mode-of-action codes').inputValue(), 'FRAC 3'));
  await page.getByText('Acts on: fungus.').waitFor();
  await page.getByText('It says nothing of what is permitted.').waitFor();
  await page.getByLabel('Content').fill('19 %');
  await press(page, '19 % w/v: g in 100 mL of product');
  await eventually(page, async () => assert.equal(await page.getByLabel('Content').inputValue(), '19 % w/v'));
  await picture(page, 'shelf-active');

  await press(page, 'Add a use of the label');
  await pick(page, 'Dipping');
  await pick(page, 'Fungus');
  await page.getByText('For dipping', { exact: true }).waitFor();
  await page.getByLabel('Rate, the lowest where it gives two').fill('1 tbsp/10 L');
  await page.getByText('Which is meant?').waitFor();
  await picture(page, 'shelf-spoon');
  await press(page, 'Keep the label so');
  await page.getByText('Whose spoon, ounce, pint or gallon?').waitFor();
  assert.equal(await page.getByLabel('Rate, the lowest where it gives two').inputValue(), '1 tbsp/10 L', 'nothing typed is lost');
  await page.getByRole('button', { name: 'US tbsp' }).first().click();
  await eventually(page, async () => assert.match(await page.getByLabel('Rate, the lowest where it gives two').inputValue(), /US tbsp/));
  await page.getByLabel('Rate, the lowest where it gives two').fill('1 mL/L');

  // The battery dies; all that was typed is there.
  await kill(phone);
  phone = await reopen(phone);
  page = phone.page;
  await title(page, 'Example liquid');
  await eventually(page, async () => {
    assert.equal(await page.getByLabel('Registration number').inputValue(), '12345-6');
    assert.equal(await page.getByLabel('Content').inputValue(), '19 % w/v');
  });
  await page.getByLabel('Highest rate').fill('0.5 mL/L');
  await press(page, 'Keep the label so');
  await page.getByText('The highest rate is lower than the lowest.').waitFor();
  await page.getByLabel('Highest rate').fill('1.5 mL/L');
  await page.getByLabel('Minutes in a dip, as the label says').fill('10');
  await page.getByLabel('Hours until re-entry', { exact: true }).fill('12');
  assert.deepEqual(await axe(page), []);
  await picture(page, 'shelf-label');
  await press(page, 'Keep the label so');
  await title(page, 'Products');
  await eventually(page, async () => assert.equal(await page.getByText('Still missing').count(), 0));
  await picture(page, 'shelf-products');

  // The bath takes its label's range and nothing above it.
  await page.evaluate(() => { location.hash = '#/treat'; });
  await title(page, 'Treat');
  await press(page, 'Make a bath');
  await page.waitForTimeout(400);
  await page.locator('.pick', { hasText: 'Example liquid' }).click();
  await page.getByText('On the label: 1 mL/L to 1.5 mL/L.').waitFor();
  await pick(page, 'Fungus');
  await page.getByLabel('Litres', { exact: true }).last().fill('20');
  await page.getByText('triforine: 190 mg in each litre of bath.').waitFor();
  await page.getByLabel("Another rate of the label's range").fill('1.6 mL/L');
  await press(page, 'Safety, then mix');
  await page.getByText('That is stronger than the label allows: 1.5 mL/L is the most.').waitFor();
  await picture(page, 'shelf-above');
  assert.deepEqual(await axe(page), []);
  await page.getByLabel("Another rate of the label's range").fill('0.5 mL/L');
  await page.getByText("Weaker than the label's lowest").waitFor();
  await page.getByLabel("Another rate of the label's range").fill('1.5 mL/L');
  await page.getByText('triforine: 285 mg in each litre of bath.').waitFor();
  await press(page, 'Safety, then mix');
  await title(page, 'Before you open it');
});

phoneTest('a label reads in the dark too, and a use is taken out again', { colorScheme: 'dark' }, async ({ page }) => {
  await start(page);
  await shed(page);
  await link(page, 'Products');
  await page.getByLabel('Name on the label').fill('Example powder');
  await press(page, 'Put it on the shelf');
  await title(page, 'Example powder');
  await press(page, 'Add a use of the label');
  await pick(page, 'Spraying');
  await press(page, 'Take out: for spraying');
  await page.getByText('For spraying', { exact: true }).waitFor({ state: 'detached' });
  await page.getByLabel('Add an active').fill('an active of its own');
  await press(page, 'Add "an active of its own" as typed');
  await picture(page, 'shelf-dark');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Not on the shelf any more');
  await title(page, 'Products');
  await page.getByText('No bottle on the shelf yet.').waitFor();
});

// The thermometer of every house in a minute, a logger's file with faults in it, and what the weeks come to.
import assert from 'node:assert/strict';
import { eventually, press, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

const type = async (page, keys) => {
  for (const key of keys) {
    await page.locator('.pad-keys').getByRole('button', { name: key, exact: true }).click();
  }
};
const readings = async (page) => {
  await page.getByRole('link', { name: 'Min and max', exact: true }).click();
  await title(page, 'Minimum and maximum');
};
const day = (back) => new Date(Date.now() - back * 86_400_000).toISOString().slice(0, 10);

for (const colorScheme of ['light', 'dark']) phoneTest(`two numbers a house are typed with the thumb and outlive a dead battery, ${colorScheme}`, { colorScheme, scale: 1 }, async (phone) => {
  let { page } = phone;
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await readings(page);
  await picture(page, `climate-${colorScheme}`);
  assert.deepEqual(await axe(page), []);

  const first = page.locator('.reading').first();
  const house = (await first.getAttribute('aria-label')).replace(/, minimum.*$/, '');
  await first.click();
  await page.getByRole('heading', { name: `${house}, minimum` }).waitFor();
  await type(page, ['7', '− below zero']);
  await picture(page, `climate-pad-${colorScheme}`);
  assert.deepEqual(await axe(page), []);
  await press(page, 'Maximum');
  await page.getByRole('heading', { name: `${house}, maximum` }).waitFor();
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'Minimum and maximum');
  await page.getByRole('button', { name: `${house}, minimum: -7`, exact: true }).waitFor();

  await press(page, 'Keep the readings');
  await page.getByText('The maximum is missing.').waitFor();
  await page.getByRole('button', { name: `${house}, maximum: not typed`, exact: true }).click();
  await type(page, ['6', '0']);
  await page.keyboard.press('Escape');
  await press(page, 'Keep the readings');
  await page.getByText("60 °C is not a house's air").waitFor();
  await picture(page, `climate-refused-${colorScheme}`);
  await page.getByRole('button', { name: `${house}, maximum: 60`, exact: true }).click();
  const erase = page.locator('.pad-keys button').nth(11);
  await erase.click();
  await erase.click();
  await type(page, ['2', '1', 'Point', '5']);
  await page.keyboard.press('Escape');
  await press(page, 'Keep the readings');
  await page.getByText('Recorded: minimum and maximum').waitFor();
  await page.getByRole('button', { name: `${house}, maximum: 21.5`, exact: true }).waitFor();

  await page.getByRole('link', { name: `The last weeks in ${house}` }).click();
  await title(page, house);
  await page.getByText('of the last 60 days. Coldest').waitFor();
  await picture(page, `climate-weeks-${colorScheme}`);
  assert.deepEqual(await axe(page), []);
  assert.deepEqual(phone.complaints, []);
});

phoneTest("a logger's file says what it comes to and why rows are not taken, on the narrowest phone", { width: 320, height: 568, scale: 1 }, async ({ page, complaints }) => {
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await readings(page);
  await page.getByRole('link', { name: "From a logger's file" }).click();
  await title(page, "From a logger's file");
  const rows = ['Nr;Day;Time;Temp (°C);RH %'];
  for (const back of [9, 8, 5, 4]) {
    for (let hour = 0; hour < 24; hour += 1) rows.push(`1;${day(back)};${String(hour).padStart(2, '0')}:00;${hour + 1},5;${90 - hour}`);
  }
  rows.push(`1;${day(4)};02:00;-3,5;90`, `1;${day(4)};05:00;6,5;85`, `1;${day(3)};00:00;9,0;80`, '1;soon;00:00;9,0;80', `1;${day(3)};01:00;nine;80`, `1;${day(3)};01:00;60;80`);
  await page.locator('input[type=file]').setInputFiles({ name: 'house.csv', mimeType: 'text/csv', buffer: Buffer.from(rows.join('\r\n')) });
  await page.getByText('What it comes to').waitFor();
  await page.getByText(/^4 days, .*: -3\.5 °C to 24\.5 °C\.$/).waitFor();
  await page.getByText('it stays a gap').waitFor();
  await page.getByText('1 of 24 hours, left out').waitFor();
  await page.getByText('1 row is there twice with the same numbers').waitFor();
  await page.getByText('as when clocks go back: both count').waitFor();
  await page.getByText('3 rows were not taken, and why').click();
  await page.getByText('Line 101: "soon 00:00" is no day in this order.').waitFor();
  await page.getByText('Line 102: "nine" is no number.').waitFor();
  await page.getByText("Line 103: 60 °C is not a house's air").waitFor();
  await picture(page, 'climate-logger');
  assert.deepEqual(await axe(page), []);
  // The wrong column: nothing can be read, and it says so.
  const column = (legend, head) => page.locator('fieldset', { hasText: legend }).locator('.choice', { hasText: head });
  await column('Temperature, or the minimum', 'Time').click();
  await page.getByText('No day can be read with these columns.').waitFor();
  await column('Temperature, or the minimum', 'Temp').click();
  await page.locator('fieldset', { hasText: 'Where it hung' }).locator('.choice').first().click();
  await press(page, 'Take 4 days');
  await page.getByText('of the last 60 days. Coldest').waitFor();
  await page.getByText('Dryness of the air').waitFor();
  await eventually(page, async () => {
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= 320, `${wide} px wide`);
  });
  await picture(page, 'climate-weeks-narrow');
  assert.deepEqual(complaints, []);
});

// A morning with ninety minutes: what fits is worked through, and the rest says why it waits.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { eventually, press, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

const minutes = (text) => {
  const [, hours = 0] = text.match(/(\d+) h/) ?? [];
  const [, rest = 0] = text.match(/(\d+) min/) ?? [];
  return Number(hours) * 60 + Number(rest);
};
const figure = async (page) => (await page.locator('.figure').innerText()).split(' of ').map(minutes);

for (const colorScheme of ['light', 'dark']) phoneTest(`half an hour is planned, worked through, and outlives a dead battery, ${colorScheme}`, { colorScheme, scale: 1 }, async (phone) => {
  let { page } = phone;
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  const before = await page.locator('.figure').innerText();
  await page.waitForTimeout(400);
  // A tap is not enough for what asks how it looks, or whether it was treated.
  await page.locator('.work', { hasNotText: /Did the treatment work|Treat again/ }).locator('.work-do').first().click();
  await page.waitForFunction((before) => document.querySelector('.figure').innerText !== before, before);
  await page.getByRole('link', { name: 'What fits?', exact: true }).click();
  await title(page, 'What fits today');
  await page.locator('.choice', { hasText: '30 min' }).first().click();
  await page.getByText('Left for another day').waitFor();
  await eventually(page, async () => {
    const [planned, room] = await figure(page);
    assert.equal(room, 30);
    assert.ok(planned > 0 && planned <= 30, `${planned} planned`);
  });
  await page.getByText('the others are worth more').first().waitFor();
  await picture(page, `day-${colorScheme}`);
  assert.deepEqual(await axe(page), []);

  const done = page.locator('.work-do').first();
  const label = await done.getAttribute('aria-label');
  await page.waitForTimeout(400);
  await done.click();
  await page.getByText('of it done').waitFor();
  const left = await eventually(page, async () => {
    const [, now] = await figure(page);
    // Both are rounded up: a task of half a minute is a minute done, and leaves thirty.
    const done = minutes(await page.getByText('of it done').innerText());
    assert.ok(done > 0 && [30 - done, 31 - done].includes(now), `${now} left and ${done} done after ${label}`);
    return now;
  });

  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'What fits today');
  await page.getByText('of it done').waitFor();
  await eventually(page, async () => assert.equal((await figure(page))[1], left));
  await page.locator('.choice', { hasText: '4 h' }).click();
  await page.waitForFunction((before) => !document.querySelector('.figure').innerText.includes(`of ${before} min`), left);
  await eventually(page, async () => assert.ok((await figure(page))[1] > 200));
  await picture(page, `day-long-${colorScheme}`);
  assert.deepEqual(await axe(page), []);

  const [file] = await Promise.all([page.waitForEvent('download'), press(page, 'Into the calendar')]);
  assert.match(file.suggestedFilename(), /^work-\d{4}-\d\d-\d\d\.ics$/);
  const text = await readFile(await file.path(), 'utf8');
  assert.match(text, /^BEGIN:VCALENDAR\r\nVERSION:2\.0\r\n/);
  const uids = [...text.matchAll(/^UID:(.+)\r$/gm)].map(([, uid]) => uid);
  assert.ok(uids.length > 10 && new Set(uids).size === uids.length, `${uids.length} lines`);
  assert.match(text, /\r\nSUMMARY:First weak feed/);
  assert.deepEqual(phone.complaints, []);
});

phoneTest('what is to come is told with its range, in both themes', { scale: 1 }, async ({ page, complaints }) => {
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await page.getByRole('navigation').getByRole('link', { name: 'Stock' }).click();
  await page.getByRole('link', { name: 'What is to come', exact: true }).click();
  await title(page, 'What is to come');
  const drawings = page.locator('figure.drawing');
  await eventually(page, async () => assert.equal(await drawings.count(), 2));
  assert.match(await drawings.first().getAttribute('aria-label'), /^May stand in flower: .+ \d+ \(\d+ to \d+\)/);
  await page.getByText('believed now').first().waitFor();
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme });
    await picture(page, `outlook-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
  }
  assert.deepEqual(complaints, []);
});

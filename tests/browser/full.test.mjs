// A full phone: what was tapped is refused in a sentence, nothing of it is recorded, and it can be tapped again once
// there is room. The browser trusts what it last knew of free space for a while, so the limit is set before it writes.
import assert from 'node:assert/strict';
import { axe, home, phoneTest, picture } from './harness.mjs';

async function onAPhoneWithRoom(bytes, { page, context }) {
  const session = await context.newCDPSession(page);
  const origin = new URL(home).origin;
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: bytes });
  await page.goto(home);
  await page.locator('h1').first().waitFor();
  return () => session.send('Storage.overrideQuotaForOrigin', { origin });
}

/** A hand taps again until it works; a script waits a little between taps. */
async function again(page, button, heading) {
  const there = page.getByRole('heading', { level: 1, name: heading });
  while ((await there.count()) === 0) {
    await button.click();
    await page.waitForTimeout(1000);
  }
}

phoneTest('a phone with no room at all says so instead of opening a book', { url: null }, async (phone) => {
  await onAPhoneWithRoom(1, phone);
  await phone.page.getByText(/The phone is full/).waitFor();
  await picture(phone.page, 'full-at-start');
  assert.deepEqual(await axe(phone.page), []);
});

phoneTest('on a full phone nothing is shown as recorded, and what was typed is still there', { url: null }, async (phone) => {
  const { page } = phone;
  const makeRoom = await onAPhoneWithRoom(20_000, phone);
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await page.getByRole('button', { name: 'Start my book' }).click();
  await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor();
  const add = page.getByRole('button', { name: 'Add this task' });
  const refused = page.getByText(/Not recorded. The phone is full/);
  let recorded = 0;
  let text = '';
  for (;;) {
    await page.evaluate(() => { location.hash = '#/round/task'; });
    text = `${recorded} `.padEnd(200, 'bark ').trimEnd();
    await page.getByLabel('What is to be done').fill(text);
    await page.waitForTimeout(400);
    await add.click();
    await refused.or(page.getByRole('heading', { level: 1, name: 'Round' })).first().waitFor();
    if (await refused.count()) break;
    recorded += 1;
  }
  await picture(page, 'full');
  assert.ok(recorded > 0, 'there was room for something');
  assert.equal(await page.getByLabel('What is to be done').inputValue(), text, 'nothing typed is lost');
  await page.reload();
  await page.getByLabel('What is to be done').waitFor();
  await page.evaluate(() => { location.hash = '#/'; });
  const tasks = page.locator('.work-what');
  await tasks.nth(recorded - 1).waitFor();
  assert.equal(await tasks.count(), recorded, 'what was refused is not on disk');
  await makeRoom();
  await page.evaluate(() => { location.hash = '#/round/task'; });
  await page.getByLabel('What is to be done').fill('Order bark');
  await again(page, add, 'Round');
  await tasks.nth(recorded).waitFor();
  assert.equal(await tasks.count(), recorded + 1, 'once there is room, once');
});

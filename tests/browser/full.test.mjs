// A full phone: what was tapped is refused in a sentence, nothing of it is recorded, and it can be tapped again once
// there is room. The browser trusts what it last knew of free space for a while, so the limit is set before it writes.
import assert from 'node:assert/strict';
import { eventually, go as goTo, press, toTheEnd } from './hand.mjs';
import { axe, home, phoneTest, picture } from './harness.mjs';

async function onAPhoneWithRoom(bytes, { page, context }) {
  const session = await context.newCDPSession(page);
  const origin = new URL(home).origin;
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: bytes });
  await page.goto(home);
  await page.locator('h1').first().waitFor();
  return () => session.send('Storage.overrideQuotaForOrigin', { origin });
}

phoneTest('a phone with no room at all says so instead of opening a book', { url: null }, async (phone) => {
  await onAPhoneWithRoom(1, phone);
  await phone.page.getByText(/The phone is full/).waitFor();
  await picture(phone.page, 'full-at-start');
  assert.deepEqual(await axe(phone.page), []);
});

phoneTest('on a full phone nothing is shown as recorded, and what was typed is still there', { url: null }, async (phone, t) => {
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
    await goTo(page, '#/round/task');
    text = `${recorded} `.padEnd(200, 'bark ').trimEnd();
    await page.getByLabel('What is to be done').fill(text);
    await page.waitForTimeout(400);
    await add.click();
    await refused.or(page.getByRole('heading', { level: 1, name: 'Round' })).first().waitFor();
    if (await refused.count()) break;
    recorded += 1;
  }
  await picture(page, 'full');
  t.diagnostic(`${recorded} tasks before it was full`);
  assert.ok(recorded > 0, 'there was room for something');
  await eventually(page, async () => assert.equal(await page.getByLabel('What is to be done').inputValue(), text, 'nothing typed is lost'));
  await page.reload();
  await page.getByLabel('What is to be done').waitFor();
  await goTo(page, '#/');
  const tasks = page.locator('.work-what');
  await tasks.nth(recorded - 1).waitFor();
  await eventually(page, async () => assert.equal(await tasks.count(), recorded, 'what was refused is not on disk'));
  await makeRoom();
  await goTo(page, '#/round/task');
  await page.getByLabel('What is to be done').fill('Order bark');
  await until(page, 'Add this task', page.getByRole('heading', { level: 1, name: 'Round' }));
  await tasks.nth(recorded).waitFor();
  await eventually(page, async () => assert.equal(await tasks.count(), recorded + 1, 'once there is room, once'));
});

const counted = (page, label) => page.getByRole('group', { name: label, exact: true }).locator('output').innerText();
const notRecorded = (page) => page.getByText(/Not recorded. The phone is full/);
const said = async (page) => {
  await goTo(page, '#/book');
  await page.getByRole('heading', { level: 1, name: 'Book' }).waitFor();
  await toTheEnd(page, 'More of these');
  return page.locator('.entry').allInnerTexts();
};

/** Tasks until none goes in any more: long ones first, then the shortest there are. */
async function fillUp(page) {
  for (const words of ['bark '.repeat(40).trimEnd(), 'bark']) {
    for (;;) {
      await goTo(page, '#/round/task');
      await page.getByLabel('What is to be done').fill(words);
      await press(page, 'Add this task');
      await notRecorded(page).or(page.getByRole('heading', { level: 1, name: 'Round' })).first().waitFor();
      if (await notRecorded(page).count()) break;
    }
    await page.reload();
    await page.getByLabel('What is to be done').waitFor();
  }
}

/** Presses until the phone takes it: right after room is made it may still hold itself full. */
async function until(page, name, there) {
  const button = page.getByRole('button', { name, exact: true });
  while ((await there.count()) === 0) {
    await press(page, name);
    // Taken or refused, the key is free again: only then may a second tap be meant.
    await there.first().or(button.and(page.locator(':not([aria-disabled])'))).first().waitFor();
    await there.first().waitFor({ timeout: 1000 }).catch(() => {});
  }
}

phoneTest('a phone that fills up in the middle of a repot keeps the counts, records no half, and goes on once there is room', { url: null }, async (phone) => {
  const { page } = phone;
  const makeRoom = await onAPhoneWithRoom(40_000, phone);
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor();
  await goTo(page, '#/repot/new');
  await press(page, 'Not in the book');
  await press(page, 'Open it');
  const starters = page.getByRole('group', { name: 'Starters', exact: true });
  await starters.waitFor();
  const bench = await page.evaluate(() => location.hash);
  for (let piece = 0; piece < 3; piece += 1) await press(page, 'One more: Starters');
  await press(page, 'One more: Thrown away');

  await fillUp(page);
  const before = await said(page);
  await goTo(page, bench);
  await starters.waitFor();
  await press(page, 'To the pots');
  await notRecorded(page).waitFor();
  await picture(page, 'full-at-the-bench');
  assert.deepEqual(await axe(page), []);
  await eventually(page, async () => assert.equal(await counted(page, 'Starters'), '3', 'still on the pieces, and still three'));
  await page.reload();
  await starters.waitFor();
  await eventually(page, async () => {
    assert.equal(await counted(page, 'Starters'), '3', 'the counts are on the disk');
    assert.equal(await counted(page, 'Thrown away'), '1');
  });
  await eventually(page, async () => assert.deepEqual(await said(page), before, 'nothing of it is in the book'));

  await makeRoom();
  await goTo(page, bench);
  await starters.waitFor();
  const toPot = page.getByText('Starters · 3 pieces');
  await until(page, 'To the pots', toPot);
  await eventually(page, async () => assert.equal((await said(page)).length, before.length + 1, 'one entry, however often it was tapped'));
  await page.reload();
  await goTo(page, bench);
  await toPot.waitFor();
  await until(page, 'Potted', page.getByRole('heading', { level: 1, name: 'Labels' }));
  await eventually(page, async () => assert.equal((await said(page)).length, before.length + 2, 'three pots, once'));
});

phoneTest('a phone that fills up at the pots has nothing potted by half', { url: null }, async (phone) => {
  const { page } = phone;
  const makeRoom = await onAPhoneWithRoom(40_000, phone);
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor();
  await goTo(page, '#/repot/new');
  await press(page, 'Not in the book');
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  const bench = await page.evaluate(() => location.hash);
  for (let piece = 0; piece < 3; piece += 1) await press(page, 'One more: Starters');
  await press(page, 'To the pots');
  const toPot = page.getByText('Starters · 3 pieces');
  await toPot.waitFor();
  const code = await page.locator('.code-line .stake-code').innerText();

  await fillUp(page);
  const before = await said(page);
  await goTo(page, bench);
  await toPot.waitFor();
  await press(page, 'Potted');
  await notRecorded(page).waitFor();
  await picture(page, 'full-at-the-pots');
  await page.reload();
  await toPot.waitFor();
  await eventually(page, async () => assert.equal(await page.locator('.code-line .stake-code').innerText(), code, 'the label written already stays right'));
  await eventually(page, async () => assert.deepEqual(await said(page), before));
  await goTo(page, '#/stock');
  await page.getByRole('heading', { level: 1, name: 'Stock' }).waitFor();
  assert.equal(await page.locator('.lot-row').count(), 0, 'no lot without its pots');

  await makeRoom();
  await goTo(page, bench);
  await toPot.waitFor();
  await until(page, 'Potted', page.getByRole('heading', { level: 1, name: 'Labels' }));
  await eventually(page, async () => assert.equal(await page.locator('.label-row .stake-code').innerText(), code));
  await eventually(page, async () => assert.equal((await said(page)).length, before.length + 1));
});

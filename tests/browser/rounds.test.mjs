// A whole morning: the thermometer, something seen and photographed, a lot kept apart, ninety minutes planned and worked
// through. And the rest of the walk: a bench looked over, a step of one's own, the month to come, where a bag went.
import assert from 'node:assert/strict';
import { choose, eventually, follow, go, press, room, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

const type = async (page, keys) => {
  for (const key of keys) await page.locator('.pad-keys').getByRole('button', { name: key, exact: true }).click();
};

async function ownBook(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
}

async function addLot(page, name, plants, isNew) {
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill(name);
  for (let count = 1; count < plants; count += 1) await press(page, 'One more: Plants');
  if (isNew) await page.getByLabel('Name of the new place').fill('Cool house');
  else await choose(page, 'Cool house');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
}

/** Minimum and maximum of the first house, by the thumb. */
async function readHouse(page, min, max) {
  await room(page, 'Round');
  await follow(page, 'Min and max');
  await title(page, 'Minimum and maximum');
  await page.locator('.reading').first().click();
  await type(page, [...min]);
  await press(page, 'Maximum');
  await type(page, [...max]);
  await page.keyboard.press('Escape');
  await press(page, 'Keep the readings');
  await page.getByText('Recorded: minimum and maximum').waitFor();
}

/** A picture such as a camera gives, drawn in the page. */
async function shot(page) {
  const data = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    canvas.width = 1200;
    canvas.height = 900;
    const pen = canvas.getContext('2d');
    pen.fillStyle = '#385';
    pen.fillRect(0, 0, 1200, 900);
    pen.fillStyle = '#ddd';
    for (let at = 0; at < 40; at += 1) pen.fillRect((at * 131) % 1200, (at * 67) % 900, 30, 8);
    return canvas.toDataURL('image/jpeg', 0.9).split(',')[1];
  });
  return { name: 'leaf.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(data, 'base64') };
}

phoneTest('a morning: readings, a finding with a photograph, quarantine, ninety minutes planned and worked through', {}, async (phone) => {
  let { page } = phone;
  await ownBook(page);
  await addLot(page, 'Cymbidium lowianum', 3, true);
  await addLot(page, 'Oncidium sphacelatum', 2, false);
  await readHouse(page, '12', '24');

  await room(page, 'Stock');
  await page.locator('.lot-row').first().click();
  await follow(page, 'Seen here');
  await title(page, 'Seen here');
  await page.locator('input[type=file]').first().setInputFiles(await shot(page));
  await page.locator('img').first().waitFor();
  await press(page, 'Thrips');
  await title(page, 'Thrips');
  await page.locator('img').first().waitFor();
  // One day was read, and that is too few: the days of the table stand, and the page says so.
  await page.getByText('by days: the house was not read').waitFor();
  await picture(page, 'morning-finding');
  assert.deepEqual(await axe(page), []);
  await page.waitForTimeout(400);
  await page.getByRole('button', { name: /^Look again about \d/ }).click();
  await page.getByText('Noted for the Round.').waitFor();
  await press(page, 'Quarantine, 21 days');
  await page.getByRole('button', { name: 'Quarantine, 21 days' }).waitFor({ state: 'detached' });

  await room(page, 'Round');
  for (const text of ['Wipe the sills', 'Sweep the path']) {
    await follow(page, 'Add a task');
    await page.getByLabel('What is to be done').fill(text);
    await page.waitForTimeout(400);
    await page.locator('.action-main').last().click();
    await title(page, 'Round');
    await page.getByText(text).first().waitFor();
  }
  // A battery that dies now costs nothing.
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'Round');
  await follow(page, 'What fits?');
  await title(page, 'What fits today');
  await page.locator('.choice', { hasText: '1 h 30 min' }).click();
  await page.getByText('Wipe the sills').waitFor();
  await picture(page, 'morning-plan');
  assert.deepEqual(await axe(page), []);
  let left = await eventually(page, async () => {
    const rows = await page.locator('.work-do').count();
    assert.ok(rows >= 2, `${rows} to do`);
    return rows;
  });
  while (left > 0) {
    await page.waitForTimeout(400);
    await page.locator('.work-do').first().click();
    await page.waitForFunction((before) => document.querySelectorAll('.work-do').length < before, left);
    left = await page.locator('.work-do').count();
  }
  await page.getByText('of it done').waitFor();
  await room(page, 'Round');
  await page.getByText('all in hand').waitFor();
  assert.deepEqual(phone.complaints, []);
});

phoneTest('a bench is looked over, its count becomes a line, and the lots on it are named', {}, async ({ page, complaints }) => {
  await ownBook(page);
  await addLot(page, 'Cymbidium lowianum', 3, true);
  await go(page, '#/shed/places');
  await title(page, 'Places');
  await follow(page, 'Cool house');
  await title(page, 'Cool house');
  for (const affected of [3, 1]) {
    await follow(page, 'Seen here');
    await page.getByText('For the place as a whole').waitFor();
    for (let count = 0; count < 5; count += 1) await press(page, 'One more: Plants looked at');
    for (let count = 0; count < affected; count += 1) await press(page, 'One more: Of them with it');
    if (affected === 3) {
      await picture(page, 'place-seen');
      assert.deepEqual(await axe(page), []);
      for (let count = 0; count < 3; count += 1) await press(page, 'One more: Of them with it');
      await press(page, 'Scale');
      await page.getByText('6 cannot be affected when 5 were looked at.').waitFor();
      for (let count = 0; count < 3; count += 1) await press(page, 'One less: Of them with it');
    }
    await press(page, 'Scale');
    await title(page, 'Scale');
    await page.getByText('by days: how much warmth it needs is not known').waitFor();
    await page.getByText('Which lots have it?').click();
    await page.locator('.lot-row').first().waitFor();
    await picture(page, 'place-finding');
    assert.deepEqual(await axe(page), []);
    await page.waitForTimeout(400);
    await page.getByRole('link', { name: 'To the place', exact: true }).last().click();
    await title(page, 'Cool house');
  }
  const drawing = page.locator('figure.drawing').first();
  await eventually(page, async () => assert.match(await drawing.getAttribute('aria-label'), /40 in a hundred/, '4 of 10 on one day'));
  await page.getByLabel('Act from, in a hundred plants').fill('10');
  await press(page, 'Keep');
  await page.getByText('your line').waitFor();
  await drawing.scrollIntoViewIfNeeded();
  await picture(page, 'place-line');
  assert.deepEqual(complaints, []);
});

for (const colorScheme of ['light', 'dark']) phoneTest(`a step of one's own is added, shown on the year, and taken out, ${colorScheme}`, { colorScheme, scale: 1 }, async ({ page, complaints }) => {
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await go(page, '#/shed/protocols');
  await title(page, 'Protocols');
  await page.locator('a.entry').first().click();
  await page.locator('summary', { hasText: 'Add a step' }).waitFor();
  const name = await page.getByRole('heading', { level: 1 }).innerText();
  const before = await page.locator('h2.slat').count();
  await page.locator('summary', { hasText: 'Add a step' }).click();
  await picture(page, `protocol-add-${colorScheme}`);
  await press(page, 'Stake again');
  await page.waitForFunction((count) => document.querySelectorAll('h2.slat').length === count + 1, before);
  await page.getByText(/^(No open task moves\.|.*tasks? would .*\.)$/).waitFor();
  await picture(page, `protocol-added-${colorScheme}`);
  assert.deepEqual(await axe(page), []);
  await press(page, 'Keep these days');
  await page.getByText(/^No open task moves|would (open|move|fall away)/).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Take this step out', exact: true }).last().click();
  await page.waitForFunction((count) => document.querySelectorAll('h2.slat').length === count, before);
  await press(page, 'Keep these days');
  await page.getByText(/^No open task moves|would (open|move|fall away)/).waitFor({ state: 'detached' });
  await room(page, 'Book');
  await page.getByText(`Protocol "${name}"`).first().waitFor();
  assert.deepEqual(complaints, []);
});

for (const colorScheme of ['light', 'dark']) phoneTest(`the month to come stands as columns against the minutes there are, ${colorScheme}`, { colorScheme, scale: 1 }, async ({ page, complaints }) => {
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await press(page, 'Show the month to come');
  const drawing = page.locator('figure.drawing').last();
  await drawing.waitFor();
  await eventually(page, async () => assert.match(await drawing.getAttribute('aria-label'), /^Open work: /));
  await page.getByText(/^(More than|No day asks)/).waitFor();
  await drawing.scrollIntoViewIfNeeded();
  await page.screenshot({ path: `test-output/pictures/month-${colorScheme}.png` });
  assert.deepEqual(await axe(page), []);

  // Put off, with the reason; the Book tells it.
  // A row that leads to its lot has the same key, and it does not lead there.
  const leading = page.locator('.work', { has: page.locator('a.work-body') }).first();
  await leading.getByRole('button', { name: 'Change', exact: true }).click();
  await choose(page, 'No time');
  await picture(page, `put-off-${colorScheme}`);
  assert.deepEqual(await axe(page), []);
  await press(page, 'Put off a week');
  await page.getByText(/^Put off/).first().waitFor();
  await room(page, 'Book');
  await page.getByText(/put off to .+: No time\./).first().waitFor();
  assert.deepEqual(complaints, []);
});

phoneTest('the bag in use is written down once, and where it went is asked later', { scale: 1 }, async ({ page, complaints }) => {
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await go(page, '#/shed');
  await follow(page, 'Bags and batches');
  await title(page, 'Bags and batches');
  await page.getByLabel(/^Bag of /).first().fill('March bark');
  await page.getByLabel('Load of stone').fill('River 2');
  await picture(page, 'batches');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Keep these');
  await page.getByText('Kept for what is potted next.').waitFor();
  const filling = page.locator('button.pick').first();
  const label = await filling.innerText();
  await page.waitForTimeout(400);
  await filling.click();
  await page.getByRole('heading', { level: 2, name: label }).waitFor();
  await page.locator('a.lot-row').first().waitFor();
  await picture(page, 'batch-went');
  assert.deepEqual(await axe(page), []);
  await page.locator('a.lot-row').first().click();
  await page.getByRole('heading', { name: 'Its year' }).waitFor();
  await go(page, '#/shed/batches');
  await page.getByRole('heading', { level: 2, name: label }).waitFor();
  await press(page, 'All bags and batches');
  await page.getByText('Where did it go?').waitFor();
  assert.deepEqual(complaints, []);
});

phoneTest('a row that is done takes nothing but itself from the Round', {}, async (phone) => {
  const { page } = phone;
  await ownBook(page);
  for (const text of ['Wipe the sills', 'Sweep the path', 'Mend the hose']) {
    await follow(page, 'Add a task');
    await page.getByLabel('What is to be done').fill(text);
    await page.waitForTimeout(400);
    await page.locator('.action-main').last().click();
    await title(page, 'Round');
    await page.getByText(text).first().waitFor();
  }
  await page.evaluate(() => {
    for (const row of document.querySelectorAll('.work')) row.drawnBefore = true;
  });
  const row = (text) => page.locator('.work', { hasText: text });
  await page.waitForTimeout(400);
  await row('Sweep the path').locator('.work-do').click();
  await row('Sweep the path').waitFor({ state: 'detached' });
  for (const text of ['Wipe the sills', 'Mend the hose']) {
    assert.equal(await row(text).evaluate((it) => it.drawnBefore === true), true, `${text} is the row it was`);
  }
  await press(page, 'Undo');
  await row('Sweep the path').waitFor();
  assert.equal(await row('Mend the hose').evaluate((it) => it.drawnBefore === true), true);
  assert.deepEqual(phone.complaints, []);
});

phoneTest('a day that is past is asked about once, at the day', {}, async (phone) => {
  const { page } = phone;
  await ownBook(page);
  await follow(page, 'Add a task');
  await page.getByLabel('What is to be done').fill('Mend the vent');
  await choose(page, 'On another day');
  const day = page.locator('.field', { has: page.locator('input[type=date]') });
  await day.locator('input').fill('2020-01-05');
  await press(page, 'Add this task');
  await day.getByText('That day is past. Note it all the same?').waitFor();
  await picture(page, 'task-past');
  assert.deepEqual(await axe(page), []);
  // Another day is asked about anew.
  await day.locator('input').fill('2020-01-06');
  await press(page, 'Add this task');
  await press(page, 'Note it all the same');
  await title(page, 'Round');
  await page.getByText('Mend the vent').first().waitFor();
  assert.deepEqual(phone.complaints, []);
});

phoneTest('what a look at a treatment says is kept and told, and what is to be done again leads to a treatment', {}, async (phone) => {
  const { page } = phone;
  const told = (words) => page.getByText(words).first().waitFor();
  await ownBook(page);
  await addLot(page, 'Coelogyne cristata', 1, true);
  await room(page, 'Treat');
  await follow(page, 'Write down a treatment');
  await title(page, 'Write down a treatment');
  await page.getByLabel('What was treated').fill('vanda');
  await told('Nothing is called that.');
  await page.getByLabel('What was treated').fill('cristata');
  await page.locator('button.choose', { hasText: 'Coelogyne cristata' }).click();
  await page.getByLabel('Product').fill('As on the bottle');
  await choose(page, 'Insects');
  await choose(page, 'Bathed');
  await press(page, 'One more: Minutes in it');
  await press(page, 'Record this treatment');
  await told(/Bathed with As on the bottle/);
  await room(page, 'Stock');
  await page.locator('.lot-row').first().click();
  await page.getByRole('heading', { name: 'Its year' }).waitFor();
  const work = (words) => page.locator('.work', { hasText: words });
  await page.waitForTimeout(400);
  await work('Did the treatment work?').locator('.work-do').click();
  await press(page, 'Needs more');
  await told('Recorded: Did the treatment work? Needs more.');
  const again = work('Treat again, with another kind of product');
  await again.getByRole('button', { name: 'Treat them' }).waitFor();
  await picture(page, 'treat-again');
  assert.deepEqual(await axe(page), []);
  await page.waitForTimeout(400);
  await again.getByRole('button', { name: 'Treat them' }).click();
  await title(page, 'How?');

  // On its day it stands on the Round, with the same way.
  const now = await page.evaluate(() => Date.now());
  await page.clock.setFixedTime(now + 14 * 86_400_000);
  await go(page, '#/round');
  await page.reload();
  await title(page, 'Round');
  await again.getByRole('button', { name: 'Treat them' }).click();
  await title(page, 'How?');
  await room(page, 'Round');
  await title(page, 'Round');
  await page.waitForTimeout(400);
  await again.locator('.work-do').click();
  await page.locator('dialog[open]').getByRole('button', { name: 'Treat them' }).waitFor();
  await picture(page, 'treat-again-answers');
  await press(page, 'Mark done without a treatment');
  await told('Recorded: Treat again, with another kind of product: done without a treatment.');
  await room(page, 'Book');
  await told(/: Did the treatment work\? Needs more\.$/);
  await told(/: Treat again, with another kind of product: done without a treatment\.$/);
  assert.deepEqual(phone.complaints, []);
});

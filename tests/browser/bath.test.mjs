// A bath with wet hands: a bottle from name and rate, an amount for the tub, gloves first, a soak that outlives a dead
// battery, a drying table, a second batch in the same mixture, and hands off until the label's time.
import assert from 'node:assert/strict';
import { eventually, pick, press, room, tap, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';


/** Six pieces lie bare, spots were seen on them, or something else. */
async function bench(page, sign = 'Spots') {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await room(page, 'Repot');
  await page.getByRole('link', { name: 'A clump to the bench', exact: true }).click();
  await press(page, 'Not in the book');
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await tap(page, 'One more: To flower', 2);
  await tap(page, 'One more: Starters', 4);
  await page.getByRole('link', { name: 'Seen here', exact: true }).click();
  await page.getByRole('button', { name: sign }).first().click();
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await press(page, 'To the pots');
  await page.getByText('To flower · 2 pieces', { exact: true }).waitFor();
}

/** A bottle from its name and its rate: six taps from the open Treat room at most. */
async function newBottle(page, name, rate) {
  await page.getByLabel('Name on the label').fill(name);
  await page.getByLabel("The label's rate").fill(rate);
  await press(page, 'Put it on the shelf');
}

phoneTest('pieces go from the bench through a bath and back to the pots, over two dead batteries', {}, async (phone) => {
  let { page } = phone;
  await bench(page);
  await page.getByText('Seen here: black spots').waitFor();
  await picture(page, 'bath-offered');
  await press(page, 'A bath first');
  await title(page, 'Make a bath');

  await newBottle(page, 'Copper powder', '12.5');
  await page.getByText('Write both units as the label has them').waitFor();
  assert.equal(await page.getByLabel('Name on the label').inputValue(), 'Copper powder', 'nothing typed is lost');
  await picture(page, 'bath-bottle');
  assert.deepEqual(await axe(page), []);
  await newBottle(page, 'Copper powder', '12.5 mL per 10 L');

  await page.getByText('Does its label name dipping?').waitFor();
  await press(page, 'Safety, then mix');
  await page.getByText('Say whether the label names dipping.').waitFor();
  await pick(page, 'No, it is silent');
  await page.getByText('do not carry over to a dip').waitFor();
  await press(page, 'Safety, then mix');
  await page.getByText('write why it is done all the same').waitFor();
  await picture(page, 'bath-silent-label');
  await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Fungus' }).click();
  await press(page, 'Safety, then mix');
  await page.getByText('Say how many minutes they lie in it.').waitFor();
  await tap(page, 'One more: Minutes in it', 5);
  const bareHands = page.getByRole('group', { name: 'Hours until bare hands', exact: true }).locator('output');
  await eventually(page, async () => assert.equal(await bareHands.innerText(), '–', 'nobody has typed it, which is not none'));
  await tap(page, 'One more: Hours until bare hands', 4);
  await eventually(page, async () => assert.equal(await bareHands.innerText(), '4'));
  await press(page, 'Safety, then mix');
  await page.getByText('Type the litres of water.').waitFor();
  await page.getByLabel('Litres', { exact: true }).last().fill('0');
  await press(page, 'Safety, then mix');
  await page.getByText('There is no water in it yet.').waitFor();
  await page.getByLabel('Litres', { exact: true }).last().fill('20');
  await page.locator('.amount', { hasText: '25' }).waitFor();
  assert.match(await page.locator('.amount').innerText(), /^25\s*mL, made up with water to 20 L$/);
  await page.getByText('12.5 mL per 10 L, for 20 L. Half the water takes half of it.').waitFor();
  await picture(page, 'bath-mix');
  assert.deepEqual(await axe(page), []);

  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'Make a bath');
  await page.locator('.amount', { hasText: /^25/ }).waitFor();
  await press(page, 'Safety, then mix');
  await title(page, 'Before you open it');
  await page.getByText('If it touches skin or eyes: clothes off, rinse for 15 to 20 minutes').waitFor();
  await picture(page, 'bath-safety');
  assert.deepEqual(await axe(page), []);
  await press(page, 'All so: mixed');
  await title(page, 'What goes in');
  const chosen = page.locator('.choose[aria-pressed="true"]');
  await eventually(page, async () => assert.equal(await chosen.count(), 2, 'the pieces came along'));
  await pick(page, 'at once');
  await picture(page, 'bath-load');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
  // The time runs while a slow machine takes its own: enough of it for all that follows.
  await page.locator('.digits', { hasText: /^(5:00|[34]:[0-5]\d)$/ }).waitFor();
  await tap(page, '+1 min', 5);
  await page.locator('.digits', { hasText: /^[6-9]:[0-5]\d$/ }).waitFor();
  await picture(page, 'bath-soak');
  assert.deepEqual(await axe(page), []);

  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'In the tub');
  await page.locator('.digits', { hasText: /^[2-9]:[0-5]\d$/ }).waitFor();
  await room(page, 'Stock');
  await title(page, 'Stock');
  await page.locator('.soak-line', { hasText: 'left' }).click();
  await title(page, 'In the tub');
  await press(page, 'Out now');
  await title(page, 'What goes in');
  await page.getByText('1 batch out of it so far').waitFor();
  await page.getByText('On the drying table').waitFor();
  await page.getByText(/^Mixed .*; 6 pieces lay in it\.$/).waitFor();
  await page.getByText('Its level and its dirt').click();
  await page.getByLabel('Litres in it now').fill('21');
  await press(page, 'That is the level');
  await page.getByText('more than was in it before').waitFor();
  await page.getByLabel('Litres in it now').fill('15');
  await press(page, 'That is the level');
  await page.getByText('5 L were carried out').waitFor();
  await page.getByText('about 100 %, or 94 %').waitFor();
  await picture(page, 'bath-drying');
  assert.deepEqual(await axe(page), []);

  await page.getByRole('link', { name: 'To the pots', exact: true }).click();
  await page.getByText('To flower · 2 pieces', { exact: true }).waitFor();
  await page.getByText('Treated with Copper powder. Wait until').waitFor();
  assert.equal(await page.getByRole('button', { name: 'A bath first' }).count(), 0, 'they had their bath');
  await picture(page, 'bath-back-at-the-bench');
  await press(page, 'Potted');
  await page.getByText('Starters · 4 pieces', { exact: true }).waitFor();
  await press(page, 'Potted');
  await title(page, 'Labels');
  await room(page, 'Treat');
  await title(page, 'Treat');
  await page.getByText('Hands off until').waitFor();
  await page.getByText('Baths in hand').waitFor();
  await picture(page, 'bath-room');
  assert.deepEqual(await axe(page), []);
  await page.locator('a.pick', { hasText: 'Copper powder' }).click();
  await title(page, 'What goes in');
  await press(page, 'Empty the tub');
  await press(page, 'It is empty');
  await title(page, 'Treat');
  await page.getByText('Baths in hand').waitFor({ state: 'detached' });
  await page.locator('a.entry', { hasText: 'Copper powder' }).first().click();
  await title(page, 'One entry');
  await eventually(page, async () => {
    const record = await page.locator('main').innerText();
    for (const said of ['10 minutes wanted', 'the label gives no time', '25 mL', '20 L', '12.5 mL per 10 L']) {
      assert.ok(record.includes(said), `${said} in ${record}`);
    }
  });
  await picture(page, 'bath-record');
  assert.deepEqual(phone.complaints, []);
});

phoneTest('a soak that ended while the phone was away says since when, and takes the time that was meant', {}, async (phone) => {
  let { page } = phone;
  await bench(page);
  await press(page, 'A bath first');
  await newBottle(page, 'Soap', '2 g/L');
  await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Insects' }).click();
  await press(page, 'One more: Minutes in it');
  await page.getByLabel('Litres', { exact: true }).last().fill('20');
  await page.locator('.amount', { hasText: '40' }).waitFor();
  await press(page, 'Safety, then mix');
  await press(page, 'All so: mixed');
  await pick(page, 'at once');
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
  // The phone lies in a pocket for a quarter of an hour: the clock goes on, the page does not.
  const now = await page.evaluate(() => Date.now());
  await kill(phone);
  phone = await reopen(phone, { init: undefined, url: null });
  ({ page } = phone);
  // It stands at that minute, however long this takes.
  await page.clock.setFixedTime(now + 16 * 60_000);
  await page.goto(process.env.VELAMEN_URL ?? 'http://127.0.0.1:8080/');
  await title(page, 'In the tub');
  await page.getByText('Time was up 15 minutes ago: take them out').waitFor();
  // What is over is no number like those that were left: a word, a sign and another ground, from edge to edge.
  const face = page.locator('.soak-face');
  await eventually(page, async () => assert.match(await page.locator('.digits').innerText(), /^Out\s+\+15:\d\d$/));
  const ground = await face.evaluate((face) => getComputedStyle(face).backgroundColor);
  const ink = await face.evaluate((face) => getComputedStyle(face.ownerDocument.querySelector('h1')).color);
  assert.equal(ground, ink);
  await eventually(page, async () => assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'it fits'));
  await picture(page, 'bath-over');
  await page.getByRole('button', { name: 'Out now · 16 min' }).waitFor();
  await press(page, 'Out on time · 1 min');
  await title(page, 'What goes in');
  await room(page, 'Treat');
  await page.locator('a.entry').first().click();
  await page.locator('main', { hasText: /1 minute in it;/ }).waitFor();
  assert.deepEqual(phone.complaints, []);
});

phoneTest('what lay with rot ends the mixture: it is emptied, and goes on no plants', {}, async (phone) => {
  const { page } = phone;
  await bench(page, 'Soft, wet rot');
  await press(page, 'A bath first');
  await newBottle(page, 'Soap', '2 g/L');
  await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Bacterium' }).click();
  await tap(page, 'One more: Minutes in it', 5);
  await page.getByLabel('Litres', { exact: true }).last().fill('20');
  await page.locator('.amount', { hasText: '40' }).waitFor();
  await press(page, 'Safety, then mix');
  await press(page, 'All so: mixed');
  await page.getByText('Healthy pieces first, spotted ones last').waitFor();
  assert.deepEqual(await page.locator('.action-main').allInnerTexts(), ['Last piece goes in']);
  await pick(page, 'at once');
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
  await press(page, 'Out now');
  await title(page, 'What goes in');
  await page.getByText('Throw it out: pieces with symptoms lay in it').waitFor();
  await eventually(page, async () => assert.deepEqual(await page.locator('.action-main').allInnerTexts(), ['Empty the tub']));
  assert.equal(await page.getByText('The same mixture takes the next pieces').count(), 0);
  await picture(page, 'bath-thrown-out');
  assert.deepEqual(await axe(page), []);
  // The next bath is a fresh one.
  await room(page, 'Treat');
  await title(page, 'Treat');
  await press(page, 'Make a bath');
  await title(page, 'Make a bath');
  await press(page, 'Give this bath up');
  await title(page, 'Treat');
  await page.locator('a.pick', { hasText: 'Soap' }).click();
  await title(page, 'What goes in');
  await press(page, 'Empty the tub');
  await page.getByRole('button', { name: 'Collected, to be handed in' }).waitFor();
  assert.equal(await page.getByRole('button', { name: 'On plants of the label' }).count(), 0);
  await press(page, 'It is empty');
  await title(page, 'Treat');
  assert.deepEqual(phone.complaints, []);
});

phoneTest('a clock put back during the soak leaves the time to go as it was; before its start it says so', {}, async (phone) => {
  let { page } = phone;
  await bench(page);
  await press(page, 'A bath first');
  await newBottle(page, 'Soap', '2 g/L');
  await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Insects' }).click();
  await tap(page, 'One more: Minutes in it', 5);
  await page.getByLabel('Litres', { exact: true }).last().fill('10');
  await press(page, 'Safety, then mix');
  await press(page, 'All so: mixed');
  await pick(page, 'at once');
  await press(page, 'Last piece goes in');
  await page.locator('.digits', { hasText: /^[1-5]:\d\d$/ }).waitFor();
  await page.evaluate(() => {
    const before = Date.now;
    Date.now = () => before() - 3_600_000;
    const Old = Date;
    globalThis.Date = class extends Old {
      constructor(...given) {
        if (given.length) super(...given);
        else super(before() - 3_600_000);
      }
    };
    globalThis.Date.now = () => before() - 3_600_000;
  });
  await page.getByText("The phone's clock was put back during the soak").waitFor();
  await page.locator('.digits', { hasText: /^[0-4]:\d\d$/ }).waitFor();
  // The page is loaded anew with the right clock: an hour ahead of the soak as it was moved.
  const now = await page.evaluate(() => Date.now());
  await kill(phone);
  phone = await reopen(phone, { url: null });
  ({ page } = phone);
  await page.clock.setFixedTime(now - 5 * 3_600_000);
  await page.goto(process.env.VELAMEN_URL ?? 'http://127.0.0.1:8080/');
  await page.getByText('clock stands before this soak began').waitFor();
  await picture(page, 'bath-clock-behind');
});

phoneTest('the next batch in a bath that stands takes at most six taps', {}, async (phone) => {
  const { page } = phone;
  await bench(page);
  await press(page, 'A bath first');
  await newBottle(page, 'Soap', '2 g/L');
  await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Insects' }).click();
  await tap(page, 'One more: Minutes in it', 5);
  await page.getByLabel('Litres', { exact: true }).last().fill('20');
  await page.locator('.amount', { hasText: '40' }).waitFor();
  await press(page, 'Safety, then mix');
  await press(page, 'All so: mixed');
  await pick(page, 'at once');
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
  await press(page, 'Out now');
  await page.getByText('1 batch out of it so far').waitFor();
  await room(page, 'Round');
  await title(page, 'Round');
  let taps = 0;
  const tapped = async (locator) => {
    await page.waitForTimeout(400);
    await locator.click();
    taps += 1;
  };
  await tapped(page.getByRole('navigation').getByRole('link', { name: 'Treat' }));
  await tapped(page.locator('a.pick', { hasText: 'Soap' }));
  await tapped(page.locator('.choose').first());
  await tapped(page.getByRole('button', { name: 'Last piece goes in', exact: true }));
  await title(page, 'In the tub');
  await page.locator('.digits', { hasText: /^[2-5]:[0-5]\d$/ }).waitFor();
  await tapped(page.getByRole('button', { name: 'Out now', exact: true }));
  await page.getByText('2 batches out of it so far').waitFor();
  assert.ok(taps <= 6, `${taps} taps`);
  assert.deepEqual(phone.complaints, []);
});

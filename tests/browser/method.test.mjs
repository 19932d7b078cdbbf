// Treating without a tub: a drench held for its target and for a silent label, over a dead battery; a spray for a whole
// place but one lot, aired, with the paper for its door; the Round and the plants say until when; and what must never
// meet is said before it is opened.
import assert from 'node:assert/strict';
import { choose, eventually, follow, go, pick, press, room, tap, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

/** A tap that is not taken for a bounce of the one before. */
const touch = async (page, at) => {
  await page.waitForTimeout(400);
  await at.click();
};

/** Litres, millilitres or grams, without its unit. */
const amount = (page) => page.locator('.amount').first().innerText();

async function lot(page, name, plants, first) {
  await room(page, 'Stock');
  await title(page, 'Stock');
  await go(page, '#/stock/new');
  await page.getByLabel('Name of the plant').fill(name);
  await tap(page, 'One more: Plants', plants);
  if (first) await page.getByLabel('Name of the new place').fill('Warm house');
  else await pick(page, 'Warm house');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
}

async function house(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await lot(page, 'Zygopetalum maculatum', 3, true);
  await lot(page, 'Lycaste aromatica', 2, false);
  await go(page, '#/shed/places');
  await title(page, 'Places');
  await touch(page, page.getByRole('link', { name: /Warm house/ }).first());
  await page.getByLabel('Area of the benches').fill('4');
  await press(page, 'Keep the area');
  await page.getByText('Changed.').first().waitFor();
  await go(page, '#/shed/phone');
  await page.getByLabel('Poisons number').fill('555 0143');
  await press(page, 'Keep this');
  await page.getByText('Changed.').first().waitFor();
}

/** A bottle with one active of the table, and its label's ways. */
async function product(page, name, active, ways, rate) {
  await go(page, '#/shed/products');
  await title(page, 'Products');
  await page.getByLabel('Name on the label').fill(name);
  await press(page, 'Put it on the shelf');
  await title(page, name);
  await page.getByLabel('Add an active').fill(active);
  await touch(page, page.getByRole('button', { name: active }).first());
  await press(page, 'Add a use of the label');
  for (const way of ways) await pick(page, way);
  await page.getByLabel('Rate, the lowest where it gives two').fill(rate);
  await page.getByLabel('Hours until re-entry', { exact: true }).fill('12');
  await press(page, 'Keep the label so');
  await title(page, 'Products');
}

phoneTest('a drench and a spray from the bottle to the paper on the door', {}, async (phone) => {
  let { page } = phone;
  await house(page);
  await product(page, 'Example liquid', 'triforine', ['Spraying'], '1 mL/L');
  await product(page, 'Example copper', 'copper', ['Spraying', 'Drenching'], '2 g/L');

  // The drench: a label silent on it, and a water mould that what is in the bottle does not reach.
  await room(page, 'Treat');
  await title(page, 'Treat');
  await follow(page, 'Another way');
  await title(page, 'How?');
  await eventually(page, async () => assert.equal((await page.locator('.choose strong').allInnerTexts())[0], 'Bath', 'a bath comes first'));
  await picture(page, 'method-how');
  assert.deepEqual(await axe(page), []);
  await touch(page, page.locator('.choose', { hasText: 'Drench' }));
  await title(page, 'What is treated');
  await press(page, 'Next: the bottle');
  await page.getByText('Pick what is treated').waitFor();
  await touch(page, page.locator('.choose', { hasText: 'Warm house' }));
  await page.getByText('Tap what is left out.').waitFor();
  await picture(page, 'method-what');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Next: the bottle');
  await title(page, 'The bottle');
  await touch(page, page.locator('button.pick', { hasText: 'Example liquid' }));
  await page.getByText('does not carry over to a drench').waitFor();
  await page.getByLabel('Why it is done all the same').fill('Asked the maker; three pots last week.');
  await choose(page, 'Water mould', 'Against');
  await page.getByText('is not known to act on water mould').waitFor();
  await page.getByText('On the shelf, and acting on it: Example copper.').waitFor();
  await page.getByLabel('Millilitres on a pot').fill('100');
  await press(page, 'Safety, then mix');
  await page.getByText('write why it is used all the same').waitFor();
  await picture(page, 'method-held');
  assert.deepEqual(await axe(page), []);
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'The bottle');
  await eventually(page, async () => assert.equal(await page.getByLabel('Millilitres on a pot').inputValue(), '100', 'nothing typed is lost'));
  await page.getByLabel('Why it is used all the same').fill('The laboratory found both.');
  await page.getByText('7 pots, about 100 mL on each: 700 mL in all.').waitFor();
  await eventually(page, async () => assert.match(await amount(page), /^0\.7\s*mL, made up with water to 700 mL$/));
  await press(page, 'Safety, then mix');
  await title(page, 'Before you open it');
  await page.getByText('Poisons number: 555 0143').waitFor();
  await eventually(page, async () => assert.equal(await page.locator('main').evaluate((body) => body.scrollTop), 0, 'cautions are read from the first'));
  await picture(page, 'method-safety');
  assert.deepEqual(await axe(page), []);
  await press(page, 'All so: begin');
  await title(page, 'Drench');
  await press(page, 'It is done');
  await title(page, 'Door notice');
  await page.getByText('Example liquid').first().waitFor();
  await follow(page, 'Back to Treat');
  await title(page, 'Treat');
  await touch(page, page.locator('a.entry').first());
  await page.getByText('The laboratory found both.').first().waitFor();

  // The spray: the whole place but one lot, by its area, with copper; aired; and planned against insects after it.
  await go(page, '#/treat/apply');
  await title(page, 'How?');
  await touch(page, page.locator('.choose', { hasText: 'Spray' }));
  await touch(page, page.locator('.choose', { hasText: 'Warm house' }));
  await touch(page, page.locator('button.pick', { hasText: 'Lycaste' }));
  await page.locator('button.pick[aria-pressed="true"]', { hasText: 'Lycaste' }).waitFor();
  await press(page, 'Next: the bottle');
  await touch(page, page.locator('button.pick', { hasText: 'Example copper' }));
  await choose(page, 'Fungus', 'Against');
  await touch(page, page.getByRole('switch', { name: /By the area of the place/ }));
  await page.getByText('4 m² take 600 mL.').waitFor();
  await press(page, 'Safety, then mix');
  await page.getByText('Say how the house is aired.').waitFor();
  await choose(page, 'Fans on, 2 h', 'Airing afterwards');
  await touch(page, page.getByText('Another treatment after this one'));
  await choose(page, 'Example liquid', 'With');
  await page.getByText(/^Due /).waitFor();
  await touch(page, page.getByText('What must never meet it'));
  await page.getByText('Copper with fosetyl or phosphonate: copper burns the plants.').first().waitFor();
  await eventually(page, async () => assert.match(await amount(page), /^1\.2\s*g, made up with water to 600 mL$/));
  await picture(page, 'method-spray');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Safety, then mix');
  await title(page, 'Before you open it');
  await press(page, 'All so: begin');
  await title(page, 'Spray to run-off');
  await picture(page, 'method-at-work');
  await press(page, 'It is done');
  await title(page, 'Door notice');
  const paper = page.locator('.door-notice');
  await eventually(page, async () => {
    const text = await paper.innerText();
    assert.match(text, /Keep out\s+until \d+:\d\d, /);
    for (const words of ['Warm house', 'Example copper', 'copper', 'Fans on, 2 h', 'Poisons number: 555 0143']) assert.ok(text.includes(words), words);
  });
  await picture(page, 'method-notice');
  assert.deepEqual(await axe(page), []);
  // On paper the notice stands alone and large.
  await page.emulateMedia({ media: 'print' });
  await page.locator('.screen-foot').waitFor({ state: 'hidden' });
  await eventually(page, async () => {
    const big = await page.locator('.door-notice-head').evaluate((node) => parseFloat(getComputedStyle(node).fontSize));
    assert.ok(big > 60, `${big} px`);
  });
  await picture(page, 'method-notice-print');
  await page.emulateMedia({ media: 'screen' });

  // Until then the Round, the place and what stands in it say so.
  await room(page, 'Round');
  await title(page, 'Round');
  await go(page, '#/treat');
  await page.getByText('Warm house').first().waitFor();
  await picture(page, 'method-room');
  assert.deepEqual(await axe(page), []);
  await go(page, '#/shed/places');
  await touch(page, page.getByRole('link', { name: /Warm house/ }).first());
  await page.getByText('Treated with Example copper. Wait until').waitFor();
  await room(page, 'Stock');
  await touch(page, page.locator('a', { hasText: 'Lycaste' }).first());
  await page.getByText('Treated with Example copper. Wait until').waitFor();

  // What was in the measures is told before bleach is opened, and before the next bottle.
  await go(page, '#/shed/wash');
  await title(page, 'The wash');
  await page.waitForTimeout(400);
  await pick(page, 'Tools');
  await title(page, 'Disinfect');
  await page.getByText(/gas nobody can foretell\. Example copper was in tub or measures/).waitFor();
  await picture(page, 'method-never');
  assert.deepEqual(await axe(page), []);
  await pick(page, 'Alcohol');
  await page.getByText('was in tub or measures').first().waitFor({ state: 'detached' });
});

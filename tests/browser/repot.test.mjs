// The Repot room with dirty hands: a clump nobody booked, a battery that dies at a tap, a few pieces potted now and the
// rest later, and two clumps on the bench at once.
import assert from 'node:assert/strict';
import { eventually, follow, press, room, tap, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

const output = (page, label) => page.getByRole('group', { name: label, exact: true }).locator('output');
const counts = (page, label, number, why) => eventually(page, async () => assert.equal(await output(page, label).innerText(), number, why));
const code = (page) => page.locator('.code-line .stake-code').innerText();
const turn = (page, words) => page.getByText(words, { exact: true }).waitFor();

async function startBook(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await room(page, 'Repot');
  await title(page, 'Repot');
}

/** From the Repot room to the bench: three taps, and a fourth for each further pot. */
async function openUnbooked(page, pots = 1) {
  await follow(page, 'A clump to the bench');
  await press(page, 'Not in the book');
  await tap(page, 'One more: Pots grown together', pots - 1);
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
}

phoneTest('a clump that is not in the book comes back at the very tap where the battery died, and ends in labels', {}, async (phone) => {
  let { page } = phone;
  await startBook(page);
  await press(page, 'Clean, new blade each clump');
  await page.getByText('Tools and gloves clean', { exact: true }).waitFor({ state: 'detached' });
  await openUnbooked(page, 3);
  await page.getByText('3 pots grown together').waitFor();
  await page.getByRole('button', { name: 'Put it back whole' }).waitFor();
  await tap(page, 'One more: To flower', 2);
  await tap(page, 'One more: Starters', 5);
  await press(page, 'One less: Starters');
  await press(page, 'One more: Back-bulbs');
  await press(page, 'One more: Thrown away');
  // What is cut stays cut.
  await page.getByRole('button', { name: 'Put it back whole' }).waitFor({ state: 'detached' });

  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  for (const [label, number] of [['To flower', '2'], ['Starters', '4'], ['Back-bulbs', '1'], ['Thrown away', '1']]) await counts(page, label, number);
  await page.getByText('7 pieces kept, 1 thrown away').waitFor();

  await press(page, 'To the pots');
  await turn(page, 'To flower · 2 pieces');
  await counts(page, 'Pots', '2', 'a pot each');
  await eventually(page, async () => {
    const sums = await page.locator('.sums').innerText();
    assert.match(sums, /\d L\b/, 'litres of mix');
    assert.match(sums, /\d kg/, 'kilograms of stone');
  });
  const written = [await code(page)];
  await press(page, 'Potted');

  await turn(page, 'Starters · 4 pieces');
  written.push(await code(page));
  await press(page, 'One less: Pieces now');
  await counts(page, 'Pots', '3', 'the pots follow the pieces');
  await press(page, 'Potted');
  await turn(page, 'Starters · 1 piece');
  await counts(page, 'Pieces now', '1', 'the rest, and no more than the rest');
  await counts(page, 'Pots', '1');
  written.push(await code(page));
  await picture(page, 'repot-the-rest');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Potted');

  await turn(page, 'Back-bulbs · 1 piece');
  written.push(await code(page));
  await press(page, 'Potted');
  await title(page, 'Labels');
  await eventually(page, async () => {
    const labelled = await page.locator('.label-row .stake-code').allInnerTexts();
    assert.deepEqual(labelled.sort(), [...written].sort(), 'the labels carry what was written at the bench');
  });
  assert.equal(new Set(written).size, 4);
  await page.getByRole('button', { name: 'Written' }).first().click();
  await page.locator('.label-row [aria-pressed="true"]').waitFor();
  await press(page, 'Done');
  await title(page, 'Repot');
  await page.getByText('The Round remembers what comes next').waitFor();
  assert.deepEqual(phone.complaints, []);
});

phoneTest('a grower with a new book is led once through a clump of their own, and a dead battery ends nothing', {}, async (phone) => {
  let { page } = phone;
  await startBook(page);
  const says = (words) => page.locator('.led').getByText(words).waitFor();
  await press(page, 'Lead me through');
  await says('Wipe blades, gloves and table');
  await picture(page, 'led-1-clean');
  await press(page, 'Clean, new blade each clump');
  await says('Choose a clump that fills its pot');
  await follow(page, 'A clump to the bench');
  await says('Spent spikes and old leaves off');
  await picture(page, 'led-2-open');
  await press(page, 'Show how');
  await page.getByRole('img', { name: /broken line crosses the stem near its foot/ }).waitFor();
  await picture(page, 'led-2-how');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Close');
  await press(page, 'Not in the book');
  await press(page, 'Open it');
  await says('Pull the clump apart by hand');
  await tap(page, 'One more: Starters', 2);
  await press(page, 'One more: Back-bulbs');
  await picture(page, 'led-3-pieces');
  assert.deepEqual(await axe(page), []);

  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await page.locator('.led').getByText('Pull the clump apart by hand').waitFor();
  await counts(page, 'Starters', '2');
  await press(page, 'To the pots');
  const led = (words) => page.locator('.led').getByText(words).waitFor();
  await led('Stone first.');
  await picture(page, 'led-4-pots');
  // What lies bare is work in hand: the Round says so, and the room leads back to it.
  await room(page, 'Round');
  await eventually(page, async () => assert.equal(await page.locator('.figure').innerText(), '3 pieces bare'));
  assert.equal(await page.getByText('Nothing is due today.').count(), 0);
  await room(page, 'Repot');
  await led('Pieces lie bare');
  await picture(page, 'led-4-bare');
  await follow(page, 'Pot them');
  await led('Stone first.');
  await turn(page, 'Starters · 2 pieces');
  await press(page, 'Potted');
  await led('Back-bulbs share a tray');
  await press(page, 'Show how');
  await page.getByRole('img', { name: /standing half in the mix/ }).waitFor();
  await press(page, 'Close');
  await press(page, 'Potted');
  await title(page, 'Labels');
  await led('A label into every pot.');
  await picture(page, 'led-5-labels');
  await press(page, 'Done');
  await title(page, 'Repot');
  await page.getByText('The Round remembers what comes next').waitFor();
  assert.equal(await page.getByRole('button', { name: 'Lead me through' }).count(), 0, 'it is not offered again');
  // Not even where the clump is open again, and none is finished.
  await press(page, 'Undo');
  await page.getByRole('link', { name: 'Pot them' }).or(page.getByText('On the bench')).first().waitFor();
  assert.equal(await page.getByRole('button', { name: 'Lead me through' }).count(), 0);
  assert.deepEqual(phone.complaints, []);
});

phoneTest('what leads through the first clump is put away at a tap, stays away, and is found again with the cards', {}, async (phone) => {
  let { page } = phone;
  await startBook(page);
  await press(page, 'Lead me through');
  await follow(page, 'A clump to the bench');
  await press(page, 'Go on without help');
  await page.locator('.led').waitFor({ state: 'detached' });
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'A clump to the bench');
  assert.equal(await page.locator('.led').count(), 0);
  await room(page, 'Repot');
  await title(page, 'Repot');
  assert.equal(await page.getByRole('button', { name: 'Lead me through' }).count(), 0);
  await follow(page, 'How the hands do it');
  await press(page, 'Lead me through');
  await page.locator('.led').waitFor();
  assert.deepEqual(phone.complaints, []);
});

phoneTest('two clumps lie open together, each with its tray, its codes and its place in the work', {}, async (phone) => {
  const { page } = phone;
  await startBook(page);
  await openUnbooked(page);
  await tap(page, 'One more: To flower', 2);
  await tap(page, 'One more: Starters', 3);
  await press(page, 'To the pots');
  await turn(page, 'To flower · 2 pieces');
  const first = await code(page);
  await room(page, 'Repot');
  await openUnbooked(page, 2);
  await page.locator('.tray', { hasText: '2' }).waitFor();
  await press(page, 'One more: To flower');
  await press(page, 'To the pots');
  await turn(page, 'To flower · 1 piece');
  await eventually(page, async () => assert.notEqual(await code(page), first, 'no code is promised twice'));
  await room(page, 'Repot');
  await picture(page, 'repot-two-open');
  assert.deepEqual(await axe(page), []);
  await page.getByText('5 pieces bare').waitFor();
  await page.getByRole('link', { name: 'Pot them' }).first().click();
  await turn(page, 'To flower · 2 pieces');
  await eventually(page, async () => assert.equal(await code(page), first, 'the code on the label is still its own'));

  // "Later" goes round: what was put off longest ago comes first.
  await press(page, 'Later');
  await turn(page, 'Starters · 3 pieces');
  await press(page, 'Later');
  await turn(page, 'To flower · 2 pieces');
  await press(page, 'Later');
  await turn(page, 'Starters · 3 pieces');

  // Counted again with fewer: the potting follows.
  await press(page, 'Count again');
  await press(page, 'One less: Starters');
  await press(page, 'To the pots');
  await turn(page, 'Starters · 2 pieces');
  await counts(page, 'Pieces now', '2');
  await press(page, 'Potted');
  await turn(page, 'To flower · 2 pieces');
  assert.deepEqual(phone.complaints, []);
});

phoneTest('bulbs counted after the pieces are not lost, and more pieces than bulbs is a question', {}, async (phone) => {
  const { page } = phone;
  await startBook(page);
  await openUnbooked(page);
  await tap(page, 'One more: Starters', 3);
  await press(page, 'To the pots');
  await turn(page, 'Starters · 3 pieces');
  await press(page, 'Count again');
  await page.getByText('Bulbs on them, if counted').first().click();
  await tap(page, 'One more: Bulbs on them, if counted', 2);
  await page.locator('p.warn').waitFor();
  await press(page, 'To the pots');
  await turn(page, 'Starters · 3 pieces');
  await room(page, 'Book');
  await page.getByText(/2 bulbs/).first().waitFor();
});

phoneTest('a lot of the book comes to the bench, and not every plant of it has to go', {}, async (phone) => {
  const { page } = phone;
  await startBook(page);
  for (const [name, plants] of [['Aerangis citrata', 1], ['Cymbidium lowianum', 3]]) {
    await room(page, 'Stock');
    await page.getByRole('link', { name: 'Add a lot' }).first().click();
    await page.getByLabel('Name of the plant').fill(name);
    await tap(page, 'One more: Plants', plants - 1);
    const place = page.getByRole('radio', { name: 'Cool house', exact: true });
    if ((await place.count()) === 0) await page.getByLabel('Name of the new place').fill('Cool house');
    else await place.check({ force: true });
    await press(page, 'Add this lot');
    await page.getByRole('heading', { name: 'In the book' }).waitFor();
    await page.waitForTimeout(400);
  }
  await room(page, 'Repot');
  await title(page, 'Repot');
  await follow(page, 'A clump to the bench');
  const choices = page.locator('button.choose');
  await choices.nth(1).waitFor();
  await choices.filter({ hasText: 'lowianum' }).click();
  await page.getByText('of 3', { exact: true }).waitFor();
  await counts(page, 'Plants to the bench', '3', 'all, unless told otherwise');
  await press(page, 'One less: Plants to the bench');
  await picture(page, 'repot-booked');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Not in the book');
  await page.locator('button.choose[aria-pressed="true"]', { hasText: 'lowianum' }).waitFor();
  await press(page, 'From the book');
  await press(page, 'Open it');
  await page.getByRole('button', { name: 'Put it back whole' }).waitFor();
  await page.getByText('2 pots opened').waitFor();
  await room(page, 'Stock');
  await page.locator('.lot-row', { hasText: 'lowianum' }).getByText('2 on the bench').waitFor();
  assert.deepEqual(phone.complaints, []);
});

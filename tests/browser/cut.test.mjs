// Before the cut: a clump thought over at the table, planned, brought to the bench and compared with what came off; what
// to bring for it, ticked off; how full the benches are; the whole line of a lot.
import assert from 'node:assert/strict';
import { choose, follow, go, press, room, tap, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

const within = async (page, name) => {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(wide, 0, `${name} is wider than the phone`);
};
const table = (page) => page.locator('table.ways').innerText();

/** A book with one lot of one plant; leaves the phone on the lot's page. */
async function oneLot(page, name) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await go(page, '#/stock/new');
  await page.getByLabel('Name of the plant').fill(name);
  await page.getByLabel('Name of the new place').fill('Cool house, bench 2');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
  const code = await page.locator('.stake-code').innerText();
  await press(page, 'Open the lot');
  await title(page, code);
  return code;
}

phoneTest('a clump is planned at the table, brought to the bench, and said three is compared with came off four', {}, async (phone) => {
  let { page } = phone;
  const code = await oneLot(page, 'Cymbidium lowianum');
  await follow(page, 'What would it become?');
  await title(page, 'Before the cut');
  await page.getByText('Taken as 6 (4 to 9) bulbs').waitFor();
  await tap(page, 'One more: Leads', 3);
  await tap(page, 'One more: Bulbs, roughly', 18);
  await page.getByText('Taken as 18 (13 to 23) bulbs and 3 leads.').waitFor();
  const said = await table(page);
  for (const words of ['Keep whole', 'Few large', 'Many small', 'To flower', 'Back-bulbs', 'To sell, in 1 year', 'Mix, loose', 'Minutes at the bench']) {
    assert.ok(said.includes(words), `${words}: ${said}`);
  }
  await choose(page, 'My own', 'What do you want?');
  await page.getByRole('button', { name: 'One more: To flower' }).waitFor();
  await tap(page, 'One more: To flower', 9);
  await page.locator('.warn', { hasText: '9 pieces want a lead each' }).waitFor();
  await choose(page, 'Few large', 'What do you want?');
  await page.locator('.warn').first().waitFor({ state: 'detached' });
  await picture(page, 'cut-before');
  assert.deepEqual(await axe(page), []);
  await within(page, 'before the cut');
  await press(page, 'Plan it so');
  await title(page, code);
  await page.getByText('Few large: 3 to flower, 6 back-bulbs').first().waitFor();

  // What to bring for it; a tick outlives a dead battery.
  await room(page, 'Repot');
  await follow(page, 'What to bring');
  await title(page, 'To the bench');
  await page.locator('.choose', { hasText: 'label' }).click();
  await page.locator('.choose[aria-pressed="true"]', { hasText: 'ready' }).waitFor();
  await picture(page, 'cut-to-bring');
  assert.deepEqual(await axe(page), []);
  await within(page, 'what to bring');
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await page.locator('.choose[aria-pressed="true"]', { hasText: 'label' }).waitFor();

  await room(page, 'Repot');
  await follow(page, 'A clump to the bench');
  await page.locator('.choose', { hasText: code }).click();
  await page.getByText('Few large: 3 to flower, 6 back-bulbs').waitFor();
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await page.getByRole('group', { name: 'To flower', exact: true }).getByText('said 3').waitFor();
  await tap(page, 'One more: To flower', 4);
  await press(page, 'To the pots');
  await page.getByText('To flower · 4 pieces', { exact: true }).waitFor();
  await press(page, 'Potted');
  await title(page, 'Labels');
  await page.getByText('To flower: said 3, came off 4').waitFor();
  await page.getByText('came off 0').waitFor();
  await picture(page, 'cut-compared');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Done');
  await title(page, 'Repot');

  // The line of the lot: what came of it, each once.
  await room(page, 'Stock');
  await page.locator('.lot-row').first().click();
  await follow(page, 'The whole line, and what came of it');
  await title(page, 'The whole line');
  await page.getByText('this lot', { exact: true }).waitFor();
  await page.getByRole('heading', { name: 'Comes from' }).waitFor();
  await page.locator('.lot-row', { hasText: code }).first().waitFor();
  await picture(page, 'cut-line');
  assert.deepEqual(await axe(page), []);
  await within(page, 'the line');
  await go(page, '#/stock/benches');
  await title(page, 'How full the benches are');
  await page.getByText('Nobody gave its area.').waitFor();
  await picture(page, 'cut-benches');
  assert.deepEqual(await axe(page), []);
  assert.deepEqual(phone.complaints, []);
});

phoneTest('a plant of one stem gives offshoots and a top, and an unopened clump on the bench is a range', {}, async ({ page, complaints }) => {
  await oneLot(page, 'Phalaenopsis amabilis');
  await follow(page, 'What would it become?');
  await title(page, 'Before the cut');
  await page.getByText('it is not divided').waitFor();
  const said = await table(page);
  assert.ok(said.includes('Offshoots') && said.includes('Top cut') && !said.includes('Few large'), said);
  await go(page, '#/repot/new');
  await press(page, 'Not in the book');
  await tap(page, 'One more: Pots grown together', 2);
  await page.getByLabel('Name, if you know it').fill('Cymbidium lowianum');
  await follow(page, 'What would it become?');
  await title(page, 'Before the cut');
  await page.getByText('3 pots grown together').waitFor();
  await choose(page, 'Over the rim', 'How full is each pot?');
  await page.getByText('Taken as 36 (24 to 54) bulbs').waitFor();
  await choose(page, 'Many small', 'What do you want?');
  await press(page, 'Plan it so');
  await page.getByText(/^Many small: \d+ starters/).waitFor();
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).getByText(/^said \d+/).waitFor();
  await follow(page, 'What would it become?');
  await title(page, 'Before the cut');
  await press(page, 'Drop the plan');
  await page.getByRole('group', { name: 'Starters', exact: true }).getByText('a lead, smaller').waitFor();
  assert.deepEqual(complaints, []);
});

// From the plan to the sale on one phone: three clumps thought over and planned, cut, bathed and potted, labels printed,
// one of them held before the camera, its line walked, and two plants sold.
import assert from 'node:assert/strict';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { film, modules, noPrinter, watching } from './film.mjs';
import { choose, eventually, follow, pick, press, room, tap, title } from './hand.mjs';
import { close, phoneTest, picture, reopen } from './harness.mjs';

const PLANTS = ['Cymbidium lowianum', 'Coelogyne cristata', 'Cymbidium tracyanum'];

async function addLot(page, name, first) {
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill(name);
  if (first) await page.getByLabel('Name of the new place').fill('Cool house');
  else await choose(page, 'Cool house');
  await press(page, 'Add this lot');
  await title(page, 'In the book');
  const code = await page.locator('.stake-code').innerText();
  await press(page, 'Open the lot');
  await title(page, code);
  return code;
}

/** Thinks a clump over at the table and plans it. */
async function plan(page, code) {
  await follow(page, 'What would it become?');
  await title(page, 'Before the cut');
  await tap(page, 'One more: Leads', 3);
  await tap(page, 'One more: Bulbs, roughly', 18);
  await page.getByText(/bulbs and 3 leads\.$/).waitFor();
  await choose(page, 'Few large', 'What do you want?');
  await press(page, 'Plan it so');
  await title(page, code);
  await page.getByText(/^Few large: /).first().waitFor();
}

/** Brings the planned clump to the bench and counts what comes off it. */
async function cut(page, code) {
  await room(page, 'Repot');
  await follow(page, 'A clump to the bench');
  await page.locator('.choose', { hasText: code }).click();
  await page.getByText(/^Few large: /).first().waitFor();
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'To flower', exact: true }).getByText(/^said \d+/).waitFor();
  await tap(page, 'One more: To flower', 3);
  await press(page, 'To the pots');
  await page.getByText('To flower · 3 pieces', { exact: true }).waitFor();
}

/** The pieces that lie bare go through a bath and come back to their pots. */
async function bathe(page) {
  await press(page, 'A bath first');
  await title(page, 'Make a bath');
  await page.getByLabel('Name on the label').fill('Copper powder');
  await page.getByLabel("The label's rate").fill('12.5 mL per 10 L');
  await press(page, 'Put it on the shelf');
  await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Fungus' }).click();
  await tap(page, 'One more: Minutes in it', 5);
  await tap(page, 'One more: Hours until bare hands', 4);
  await page.getByLabel('Litres', { exact: true }).last().fill('20');
  await page.locator('.amount', { hasText: '25' }).waitFor();
  await press(page, 'Safety, then mix');
  await title(page, 'Before you open it');
  await press(page, 'All so: mixed');
  await title(page, 'What goes in');
  await page.locator('.choose[aria-pressed="true"]').first().waitFor();
  await pick(page, 'at once');
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
  await press(page, 'Out now');
  await title(page, 'What goes in');
  await page.getByText('On the drying table').waitFor();
  await page.getByRole('link', { name: 'To the pots', exact: true }).first().click();
  await page.getByText('To flower · 3 pieces', { exact: true }).waitFor();
}

phoneTest('three clumps are planned, cut, bathed and potted; a label before the camera opens its lot, and two are sold', { init: noPrinter }, async (phone) => {
  const folder = await mkdtemp(path.join(tmpdir(), 'velamen-sale-'));
  const { page } = phone;
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  const codes = [];
  for (const [at, name] of PLANTS.entries()) {
    codes.push(await addLot(page, name, at === 0));
    await plan(page, codes[at]);
  }
  await room(page, 'Repot');
  await follow(page, 'What to bring');
  await title(page, 'To the bench');
  await eventually(page, async () => {
    const work = await page.locator('.entry').allInnerTexts();
    for (const code of codes) assert.ok(work.some((line) => line.includes(code)), `${code} in ${work}`);
  });
  await page.locator('.choose', { hasText: /\d+ labels/ }).waitFor();

  await room(page, 'Repot');
  await press(page, 'Clean, new blade each clump');
  for (const [at, code] of codes.entries()) {
    await cut(page, code);
    // Those of the first go through a bath before they are potted.
    if (at === 0) await bathe(page);
    await press(page, 'Potted');
    await title(page, 'Labels');
    await page.getByText(/To flower: said .*came off 3/).waitFor();
    await press(page, 'Done');
    await title(page, 'Repot');
  }

  // A label for every pot.
  await room(page, 'Stock');
  await follow(page, 'Labels');
  await page.getByText('Choose a lot above').waitFor();
  await press(page, 'All without a printed label');
  await page.getByText('9 labels on 9 pages').waitFor();
  await press(page, 'Print 9 labels');
  await page.getByText('9 labels handed to the printer.').waitFor();
  await eventually(page, async () => assert.equal(await page.evaluate(() => window.printed), 1));
  await picture(page, 'sale-labels');
  const label = page.locator('.print-preview .print-label');
  const said = (await label.innerText()).replaceAll('\u{a0}', ' ');
  const [code] = said.match(/[A-Z0-9]{2}-\d+[A-Z]/);
  const seen = await film(folder, 'label.y4m', await modules(page));
  await close(phone);

  const seeing = await reopen(phone, { flags: watching(seen), permissions: ['camera'] });
  const again = seeing.page;
  await room(again, 'Stock');
  await follow(again, 'Find by code');
  await title(again, code);
  await again.locator('.fact', { hasText: '3plants' }).waitFor();
  await follow(again, 'The whole line, and what came of it');
  await title(again, 'The whole line');
  await again.getByText('this lot', { exact: true }).waitFor();
  const parent = codes[PLANTS.findIndex((name) => said.replace(/\s+/g, ' ').includes(name))];
  await again.locator('.lot-row', { hasText: parent }).first().waitFor();
  await picture(again, 'sale-line');
  await again.locator('.lot-row', { hasText: code }).first().click();
  await title(again, code);

  await press(again, 'Change');
  await press(again, 'Sold');
  await press(again, 'One more: Plants sold');
  await again.getByLabel('To whom').fill('Market stall');
  await again.getByLabel('Price of all together').fill('48');
  await press(again, 'Record the sale');
  await again.locator('.fact', { hasText: '1plant' }).waitFor();
  await again.getByText('2 pots sold to Market stall').first().waitFor();
  await room(again, 'Stock');
  await again.getByText('3 lots, 7 plants').waitFor();
  await picture(again, 'sale-stock');
  assert.deepEqual(seeing.complaints, []);
  await rm(folder, { recursive: true, force: true });
});

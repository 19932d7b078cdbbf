// The wash: what a repot empties is counted, goes through water and disinfectant over a dead battery, and the next repot
// takes from what is clean. Two tools in turn, and the tool that was not changed.
import assert from 'node:assert/strict';
import { eventually, follow, pick, press, room, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

const take = async (page, name) => {
  await page.waitForTimeout(400);
  await page.getByRole('button', { name }).first().click();
};
const clear = async (page) => assert.deepEqual(await axe(page), []);

/** Half an hour and a minute later by the phone's clock, in every page that opens. */
function later() {
  const Real = Date;
  const shift = 31 * 60_000;
  globalThis.Date = class extends Real {
    constructor(...given) {
      if (given.length) super(...given);
      else super(Real.now() + shift);
    }
    static now() {
      return Real.now() + shift;
    }
  };
}

async function startBook(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await room(page, 'Repot');
  await title(page, 'Repot');
}

/** Two starters off the clump on the bench, each into a pot; the clump is done. */
async function potTwo(page) {
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await press(page, 'One more: Starters');
  await press(page, 'One more: Starters');
  await press(page, 'To the pots');
  await page.getByText('Starters · 2 pieces', { exact: true }).waitFor();
}

async function done(page) {
  await press(page, 'Potted');
  await title(page, 'Labels');
  await press(page, 'Done');
  await title(page, 'Repot');
}

async function unbooked(page, tool) {
  await follow(page, 'A clump to the bench');
  await press(page, 'Not in the book');
  await page.getByText(tool, { exact: true }).waitFor();
}

phoneTest('emptied pots go from dirty to clean over a dead battery, and the next repot takes them', {}, async (phone) => {
  let { page } = phone;
  await startBook(page);
  await pick(page, 'Two');
  await picture(page, 'clean-session');
  await press(page, 'Clean, new blade each clump');
  await unbooked(page, 'Tool 1, clean');
  await press(page, 'Open it');
  await potTwo(page);
  await eventually(page, async () => assert.equal(await page.getByText('counted in the wash').count(), 0, 'nobody counts pots yet'));
  await done(page);

  // The lot just potted comes back: its two pots are of a kind the book knows.
  await follow(page, 'A clump to the bench');
  await page.getByText('Tool 2, clean', { exact: true }).waitFor();
  await page.locator('.choose').first().click();
  await picture(page, 'clean-next-tool');
  await clear(page);
  await press(page, 'Open it');
  await potTwo(page);
  await done(page);
  await page.getByText('Cut today, in this order').click();
  await picture(page, 'clean-cut-order');
  await clear(page);

  await follow(page, 'The wash');
  await title(page, 'The wash');
  await page.getByRole('button', { name: /^Dirty, 2 pots: / }).waitFor();
  await page.getByRole('button', { name: 'Dirty, 1 pot: Pots, kind not noted' }).waitFor();
  await picture(page, 'clean-wash-dirty');
  await clear(page);
  await take(page, /^Dirty, 2 pots: /);
  await page.getByRole('button', { name: 'Washed: 2 pots', exact: true }).waitFor();
  await picture(page, 'clean-pile');
  await clear(page);
  await press(page, 'Washed: 2 pots');
  await page.getByRole('button', { name: /^Washed, 2 pots: / }).waitFor();
  await press(page, 'Disinfect');
  await title(page, 'Disinfect');
  await press(page, 'Made');
  await page.getByText('Type the strength on the bottle').waitFor();
  await page.getByLabel('Strength on the bottle').fill('0.3');
  await page.getByLabel('Litres', { exact: true }).fill('10');
  await press(page, 'Made');
  await page.getByText('The bottle has 0.3 %, 0.5 % is wanted.').waitFor();
  await page.getByLabel('Strength on the bottle').fill('5.25');
  await page.locator('.amount', { hasText: '952' }).waitFor();
  assert.match(await page.locator('.amount').innerText(), /^952\s*mL, then water up to 10 L$/);
  await picture(page, 'clean-make');
  await clear(page);
  await press(page, 'Made');
  await title(page, 'Baths for cleaning');
  await page.getByText(/^Good until \d+:\d\d\.$/).waitFor();
  await picture(page, 'clean-load');
  await clear(page);
  await press(page, 'Last one goes in');
  await title(page, 'In the disinfectant');
  await page.locator('.digits', { hasText: /^(30:00|29:\d\d)$/ }).waitFor();
  await picture(page, 'clean-contact');
  await clear(page);

  await kill(phone);
  phone = await reopen(phone, { init: later });
  ({ page } = phone);
  await title(page, 'In the disinfectant');
  await page.getByText(/^Time (is|was) up.*: take them out$/).waitFor();
  await room(page, 'Stock');
  await page.locator('.soak-line', { hasText: 'Disinfectant' }).click();
  await title(page, 'In the disinfectant');
  await press(page, 'Out, rinse');
  await title(page, 'The wash');
  await take(page, /^Disinfected, drying, 2 pots: /);
  await press(page, 'Dry and clean: 2 pots');
  await page.getByRole('button', { name: /^Dry and clean, 2 pots: / }).waitFor();
  await page.getByText('Washed and used again so far: 2 pots.').waitFor();
  // Half an hour and a minute, and what the machine itself took.
  await page.getByText(/^Pots: chlorine \(bleach\) at 0\.5 %, 3[1-9] minutes \(2 pots\)\.$/).waitFor();
  await picture(page, 'clean-wash-clean');
  await clear(page);

  await room(page, 'Repot');
  await follow(page, 'A clump to the bench');
  await press(page, 'Not in the book');
  await press(page, 'Open it');
  await potTwo(page);
  await page.getByText('2 clean pots counted in the wash.').waitFor();
  await press(page, 'One more: Pots');
  await page.getByText(/^Only 2 clean pots counted: /).waitFor();
  await picture(page, 'clean-few-pots');
  await press(page, 'One less: Pots');
  await done(page);
  await page.goto(`${page.url().split('#')[0]}#/shed/wash`);
  await title(page, 'The wash');
  await eventually(page, async () => assert.equal(await page.getByRole('button', { name: /^Dry and clean, / }).count(), 0, 'the repot took both'));
  await room(page, 'Round');
  await page.getByRole('link', { name: 'The wash', exact: true }).first().click();
  await title(page, 'The wash');
  assert.deepEqual(phone.complaints, []);
});

phoneTest('a tool that was not changed is tapped, new pots are put in, and a dark wash is clean too', { colorScheme: 'dark' }, async (phone) => {
  const { page } = phone;
  await startBook(page);
  await pick(page, 'Two');
  await press(page, 'Clean, new blade each clump');
  await unbooked(page, 'Tool 1, clean');
  await press(page, 'Open it');
  await potTwo(page);
  await done(page);
  await unbooked(page, 'Tool 2, clean');
  await page.getByRole('switch', { name: 'Tool not changed after the last clump' }).click();
  await page.getByText('Tool 1, has cut 1 clump since it was clean', { exact: true }).waitFor();
  await clear(page);
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();

  await page.goto(`${page.url().split('#')[0]}#/shed/wash`);
  await title(page, 'The wash');
  await press(page, 'Put pots or stone in');
  await title(page, 'Put pots or stone in');
  await page.locator('.choice').first().click();
  for (let more = 0; more < 4; more += 1) await press(page, '+5');
  await picture(page, 'clean-put-in-dark');
  await clear(page);
  await press(page, 'Put in');
  await page.getByRole('button', { name: /^Dry and clean, 20 pots: / }).waitFor();
  await press(page, 'Put pots or stone in');
  await pick(page, 'Stone');
  await press(page, 'Put in');
  await page.getByText('Say how much goes in.').waitFor();
  for (let more = 0; more < 3; more += 1) await press(page, 'One more: Millilitres of stone');
  await press(page, 'Put in');
  await page.getByRole('button', { name: /^Dry and clean, 1\.5 L of stone: Stone/ }).waitFor();
  await picture(page, 'clean-wash-dark');
  await clear(page);
  await page.locator('.choice', { hasText: 'Tools' }).click();
  await title(page, 'Disinfect');
  await page.getByRole('switch', { name: 'A virus is suspected' }).click();
  await pick(page, 'Alcohol');
  await page.getByText('Not known to reach both orchid viruses.').waitFor();
  await picture(page, 'clean-tools-dark');
  await clear(page);
  assert.deepEqual(phone.complaints, []);
});

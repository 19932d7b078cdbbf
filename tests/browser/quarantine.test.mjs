// Kept apart: a sign proposes, a lot goes into quarantine, is tested, and whoever it met is found.
import assert from 'node:assert/strict';
import { choose, follow, press, room, title } from './hand.mjs';
import { axe, phoneTest, picture } from './harness.mjs';


async function addLot(page, name, plants, isNew) {
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill(name);
  for (let count = 1; count < plants; count += 1) await press(page, 'One more: Plants');
  if (isNew) await page.getByLabel('Name of the new place').fill('Cool house');
  else await page.getByRole('radio', { name: 'Cool house', exact: true }).check({ force: true });
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
}

for (const colorScheme of ['light', 'dark']) {
  phoneTest(`streaks lead into quarantine, to a test and to whoever the lot met, in ${colorScheme}`, { colorScheme }, async ({ page, complaints }) => {
    await page.getByLabel('Name of the nursery').fill('Under the Ash');
    await press(page, 'Start my book');
    await title(page, 'Round');
    await addLot(page, 'Cymbidium tracyanum', 2, true);
    await addLot(page, 'Cymbidium lowianum', 3, false);
    await press(page, 'Open the lot');
    await follow(page, 'Seen here');
    await page.getByText('How many, where, how bad').click();
    await press(page, 'One more: Plants looked at');
    await press(page, 'One more: Plants looked at');
    await press(page, 'One more: Plants looked at');
    for (let count = 0; count < 4; count += 1) await press(page, 'One more: Of them with it');
    await press(page, 'Streaks or mosaic');
    await page.getByText('4 cannot be affected when 3 were looked at.').waitFor();
    await press(page, 'One less: Of them with it');
    await picture(page, `seen-counted-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
    await press(page, 'Streaks or mosaic');
    await title(page, 'Streaks or mosaic');
    await page.getByText('3 of 3 looked at.').waitFor();
    await picture(page, `finding-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
    await press(page, 'Quarantine until two tests');
    await page.getByRole('button', { name: 'Quarantine until two tests' }).waitFor({ state: 'detached' });
    await follow(page, 'Write down a test');
    await title(page, 'A test for viruses');
    await press(page, 'Record the test');
    await page.getByText('Fill in what the test said.').waitFor();
    await choose(page, 'Detected', 'Cymbidium mosaic');
    await choose(page, 'Not detected', 'Odontoglossum ringspot');
    await picture(page, `virus-test-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
    await press(page, 'Record the test');
    await page.getByText(/tested, DETECTED on/).waitFor();
    await page.getByText(/tested, not detected on/).waitFor();
    assert.equal(await page.getByText(/virus-free/i).count(), 0);
    await page.getByText('Suspect: virus').first().waitFor();
    await picture(page, `lot-apart-${colorScheme}`);
    assert.deepEqual(await axe(page), []);

    // It may come out all the same, but never without a word.
    await press(page, 'Out early');
    await page.getByText('Write down why it comes out early.').waitFor();

    await follow(page, 'Who else is at risk?');
    await title(page, 'At risk');
    await page.getByText(/stands in the same place/).waitFor();
    await picture(page, `trace-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
    await page.waitForTimeout(400);
    await page.locator('button.pick').first().click();
    await press(page, 'Clear it');
    await page.getByText('Fill in the note.').waitFor();
    await page.getByLabel('Why it is not at risk').fill('A metre between them');
    await press(page, 'Clear it');
    await page.getByText('Cleared.').waitFor();

    await room(page, 'Stock');
    await page.getByText('In quarantine · Suspect: virus').waitFor();
    await picture(page, `stock-apart-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
    assert.deepEqual(complaints, []);
  });
}

// The record of treatments: a bath measured and soaked over a flat battery, signed by the phone's person, filled in
// afterwards, and taken out as a table and as JSON that read back.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { eventually, go, pick, press, room, tap, title } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

/** A table as RFC 4180 has it, read by this test alone. */
function table(text) {
  const rows = [[]];
  let cell = '';
  let quoted = false;
  for (let at = 0; at < text.length; at += 1) {
    const c = text[at];
    if (quoted) {
      if (c === '"' && text[at + 1] === '"') { cell += '"'; at += 1; }
      else if (c === '"') quoted = false;
      else cell += c;
    } else if (c === '"') quoted = true;
    else if (c === ',') { rows.at(-1).push(cell); cell = ''; }
    else if (c === '\r' && text[at + 1] === '\n') { rows.at(-1).push(cell); cell = ''; rows.push([]); at += 1; }
    else cell += c;
  }
  const [heads, ...lines] = rows.slice(0, -1);
  return lines.map((line) => Object.fromEntries(heads.map((head, at) => [head, line[at]])));
}

async function saved(page, key) {
  const [file] = await Promise.all([page.waitForEvent('download'), press(page, key)]);
  return { name: file.suggestedFilename(), text: await readFile(await file.path(), 'utf8') };
}

phoneTest('a bath is signed, filled in afterwards, and read back from a table and from JSON', { scale: 1 }, async (phone) => {
  let { page } = phone;
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await go(page, '#/shed/phone');
  await page.getByLabel('Who works with this phone').fill('A. Grower');
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill('Zygopetalum maculatum');
  await tap(page, 'One more: Plants', 3);
  await page.getByLabel('Name of the new place').fill('Cool house');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();

  await room(page, 'Treat');
  await title(page, 'Treat');
  await press(page, 'Make a bath');
  await page.getByLabel('Name on the label').fill('=Copper powder');
  await page.getByLabel("The label's rate").fill('12.5 mL per 10 L');
  await press(page, 'Put it on the shelf');
  await page.getByText('Does its label name dipping?').waitFor();
  await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Fungus' }).click();
  await tap(page, 'One more: Minutes in it', 5);
  await page.getByLabel('Litres', { exact: true }).last().fill('20');
  await press(page, 'Safety, then mix');
  await title(page, 'Before you open it');
  await press(page, 'All so: mixed');
  await title(page, 'What goes in');
  await page.getByLabel('A lot from the book').fill('Zygo');
  await page.locator('button.choose', { hasText: 'Zygopetalum' }).first().click();
  await pick(page, 'at once');
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'In the tub');
  await press(page, 'Out now');
  await title(page, 'What goes in');

  await go(page, '#/treat');
  await page.getByRole('link', { name: /^The whole record/ }).click();
  await title(page, 'Treatment record');
  await page.getByText('1 of 1 complete').waitFor();
  await page.waitForTimeout(400);
  await pick(page, 'EU: plant protection');
  await page.getByText('0 of 1 complete').waitFor();
  await page.getByText('missing: registration number').waitFor();
  await picture(page, 'record-missing');
  assert.deepEqual(await axe(page), []);

  await page.locator('a.entry').first().click();
  await page.waitForTimeout(400);
  await page.getByRole('button', { name: 'Correct this' }).first().click();
  await page.getByLabel('Registration number of the product').fill('00-17');
  await page.getByLabel('Where the rest went').fill('on the same crop,\nby the label');
  await picture(page, 'record-fill-in');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Keep the correction');
  await page.getByText('As it was first recorded').waitFor();
  await go(page, '#/treat/log');
  await page.getByText('1 of 1 complete').waitFor();
  await eventually(page, async () => assert.equal(await page.locator('a.entry .out').count(), 1, 'what was said first stands there, struck through'));
  await page.emulateMedia({ colorScheme: 'dark' });
  await picture(page, 'record-dark');
  assert.deepEqual(await axe(page), []);
  await page.emulateMedia({ colorScheme: 'light' });

  const csv = await saved(page, 'Save as a table');
  assert.match(csv.name, /^treatments-\d{4}-\d\d-\d\d\.csv$/);
  const lines = table(csv.text);
  assert.deepEqual(lines.map((line) => line.standing), ['replaced', 'counts']);
  const [first, now] = lines;
  assert.equal(first.registration, '');
  assert.equal(now.registration, '00-17');
  assert.equal(now.product, "'=Copper powder", 'no spreadsheet takes it for a formula');
  assert.equal(`${now.amount} ${now.amount_unit} in ${now.water_l} L`, '25 mL in 20 L');
  assert.equal(now.plants, '4');
  assert.equal(now.person, 'A. Grower');
  assert.equal(now.crop, 'Zygopetalum maculatum');
  assert.equal(now.place, 'Cool house');
  assert.match(now.start, /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d.*[+-]\d\d:\d\d$/);
  assert.equal(now.missing, '');
  const json = await saved(page, 'Save as JSON');
  const list = JSON.parse(json.text);
  assert.equal(list.length, 2);
  assert.equal(list[1].product, '=Copper powder');
  assert.equal(list[1].plants, 4);

  await page.emulateMedia({ media: 'print' });
  const paper = await page.pdf({ format: 'A4' });
  assert.ok(paper.length > 5_000);
  // No keys on paper.
  await page.getByRole('navigation', { includeHidden: true }).waitFor({ state: 'hidden' });
  await page.emulateMedia({ media: 'screen' });
  assert.deepEqual(phone.complaints, []);
});

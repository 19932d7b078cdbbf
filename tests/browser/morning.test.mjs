// A morning in the example, with no server: the round, spots seen, a clump of three pots through a bath to the labels,
// two dead batteries on the way, and the work it leaves on the days it belongs to. README's pictures are taken here.
import assert from 'node:assert/strict';
import { copyFile, mkdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { kill, phoneTest, picture, reopen, serve } from './harness.mjs';

const readme = fileURLToPath(new URL('../../assets/readme/', import.meta.url));
const press = async (page, name) => {
  if (!name.startsWith('One ')) await page.waitForTimeout(400);
  await page.getByRole('button', { name, exact: true }).click();
};
const pick = (page, name) => page.locator('.choice', { hasText: name }).first().click();
const title = (page, words) => page.getByRole('heading', { level: 1, name: words }).waitFor();
const room = (page, name) => page.getByRole('navigation').getByRole('link', { name }).click();
const tap = async (page, name, times) => {
  for (let done = 0; done < times; done += 1) await press(page, name);
};

/** A picture for README, kept in the repository only when asked for. */
async function shot(page, name) {
  const file = await picture(page, `readme-${name}`);
  if (process.env.VELAMEN_README) {
    await mkdir(readme, { recursive: true });
    await copyFile(file, `${readme}${name}.png`);
  }
}

phoneTest('a morning in the example without a server, from the round to the last label', { url: null, scale: 1 }, async (phone) => {
  const server = await serve();
  let { page } = phone;
  await page.goto(server.url);
  await page.getByRole('button', { name: 'Look around in an example' }).waitFor();
  // Once the program is kept, the server may go.
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await server.stop();
  await page.reload();
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  const [, late] = (await page.locator('.figure').innerText()).match(/^(\d+) late/);
  assert.ok(Number(late) > 0, 'there is late work this morning');
  await page.getByText('Bath for the pots with leaf spots').first().waitFor();
  await shot(page, 'round');

  // The clump of three pots comes to the bench; spots are seen on it.
  await room(page, 'Repot');
  await page.locator('button.pick', { hasText: 'Three Buckets' }).first().click();
  await press(page, 'Open it');
  await title(page, 'Three Buckets');
  await tap(page, 'One more: To flower', 3);
  await tap(page, 'One more: Starters', 4);
  await tap(page, 'One more: Back-bulbs', 5);
  await shot(page, 'pieces');
  await page.getByRole('link', { name: 'Seen here', exact: true }).click();
  await page.getByRole('button', { name: 'Black spots' }).first().click();
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await kill(phone);
  phone = await reopen(phone, { url: server.url });
  ({ page } = phone);
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await page.getByText('12 pieces kept').waitFor();
  await press(page, 'To the pots');
  await page.getByText('Seen here: black spots').waitFor();

  // The bath: from the shelf of the example, measured for eight litres.
  await press(page, 'A bath first');
  await title(page, 'Make a bath');
  await page.locator('button.pick').first().click();
  const asks = page.getByText('Does its label name dipping?');
  await page.getByText('Water in the tub').first().waitFor();
  if (await asks.count()) await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Fungus' }).click();
  await press(page, 'One more: Minutes in it');
  await page.getByLabel('Litres', { exact: true }).last().fill('8');
  await page.locator('.amount').waitFor();
  await press(page, 'Safety, then mix');
  await title(page, 'Before you open it');
  await press(page, 'All so: mixed');
  await pick(page, 'at once');
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
  await page.locator('.digits', { hasText: /^0:\d\d$/ }).waitFor();
  await shot(page, 'soak');
  await kill(phone);
  phone = await reopen(phone, { url: server.url });
  ({ page } = phone);
  await title(page, 'In the tub');
  await press(page, 'Out now');
  await page.getByText('On the drying table').waitFor();
  await page.locator('.bench-row', { hasText: '12 pieces' }).getByRole('link', { name: 'To the pots' }).click();

  // Pots and labels; the bath is not offered again.
  for (const turn of ['To flower · 3 pieces', 'Starters · 4 pieces', 'Back-bulbs · 5 pieces']) {
    await page.getByText(turn, { exact: true }).waitFor();
    assert.equal(await page.getByRole('button', { name: 'A bath first' }).count(), 0);
    await press(page, 'Potted');
  }
  await title(page, 'Labels');
  const codes = await page.locator('.label-row .stake-code').allInnerTexts();
  assert.equal(new Set(codes).size, 3);
  await press(page, 'Done');
  await title(page, 'Repot');

  // What it leaves: dirty pots today, water not before its day, a look at the result in a week, hands off till then.
  await room(page, 'Round');
  await page.getByText(/Wash, then disinfect 3 dirty pots.*stone \(tray \d+\)/).waitFor();
  await page.getByText(/No water before/).first().waitFor();
  await page.evaluate((code) => { location.hash = '#/stock'; return code; }, codes[0]);
  await page.getByLabel('Find a lot').fill(codes[0]);
  await page.locator('.lot-row', { hasText: codes[0] }).first().click();
  const lot = await page.locator('main').innerText();
  for (const said of ['Did the treatment work?', 'black spots', 'Bathed', 'potted as']) assert.ok(lot.toLowerCase().includes(said.toLowerCase()), `${said} in ${lot}`);
  assert.deepEqual(phone.complaints, []);
});

// A morning in the example, with no server: the round, spots seen, a clump of three pots through a bath to the labels,
// two dead batteries on the way, and the work it leaves on the days it belongs to. README's pictures are taken here.
import assert from 'node:assert/strict';
import { copyFile, mkdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { eventually, pick, press, room, tap, title } from './hand.mjs';
import { axe, close, kill, open, phoneTest, picture, reopen, serve } from './harness.mjs';

const readme = fileURLToPath(new URL('../../assets/readme/', import.meta.url));

/** A picture for README, kept in the repository only when asked for. */
async function shot(page, name) {
  const file = await picture(page, `readme-${name}`);
  if (process.env.VELAMEN_README && (await page.evaluate(() => matchMedia('(prefers-color-scheme: light)').matches))) {
    await mkdir(readme, { recursive: true });
    await copyFile(file, `${readme}${name}.png`);
  }
}

/** A phone that has taken a book in joins it with an entry of its own, a moment after the Round is shown. */
async function joined(page) {
  await room(page, 'Book');
  await title(page, 'Book');
  await page.locator('.entry').first().filter({ hasText: 'A phone joined' }).waitFor();
}

async function save(page) {
  await room(page, 'Book');
  await page.getByRole('link', { name: 'Hand over' }).click();
  await press(page, 'Save as a file');
}

/** Nothing on the screen stands in anybody's way. */
async function whole(page, name) {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  assert.deepEqual(await axe(page), [], name);
}

for (const colorScheme of ['light', 'dark']) phoneTest(`a morning in the example without a server, from the round to the last label, ${colorScheme}`, { url: null, scale: 1, colorScheme }, async (phone) => {
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
  await page.locator('.figure', { hasText: /^[1-9]\d* late/ }).waitFor();
  await page.getByText('Bath for the pots with leaf spots').first().waitFor();
  await shot(page, 'round');
  await whole(page, 'round');

  // Something is seen on the walk: it becomes work at its place.
  await page.getByRole('link', { name: 'Seen here', exact: true }).click();
  await page.getByText('Or on a place as a whole').waitFor();
  await page.getByLabel('Find a lot').fill('no such plant');
  await page.getByText('Nothing is called that.').waitFor();
  await page.getByLabel('Find a lot').fill('Paphiopedilum');
  await shot(page, 'seen-where');
  await whole(page, 'seen where');
  await page.locator('.lot-row').first().click();
  await page.getByRole('button', { name: 'Outgrown its pot' }).waitFor();
  await whole(page, 'seen here');
  await press(page, 'Outgrown its pot');
  await page.getByRole('heading', { name: 'Its year' }).waitFor();
  await room(page, 'Round');
  await page.getByText('outgrown its pot').first().waitFor();

  // The clump of three pots comes to the bench; spots are seen on it.
  await room(page, 'Repot');
  await page.locator('button.pick', { hasText: 'Three Buckets' }).first().click();
  await press(page, 'Open it');
  await title(page, 'Three Buckets');
  await tap(page, 'One more: To flower', 3);
  await tap(page, 'One more: Starters', 4);
  await tap(page, 'One more: Back-bulbs', 5);
  await shot(page, 'pieces');
  await whole(page, 'pieces');
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
  await page.locator('button.pick', { hasText: 'Example copper powder' }).click();
  const asks = page.getByText('Does its label name dipping?');
  await page.getByText('Water in the tub').first().waitFor();
  if (await asks.count()) await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Fungus' }).click();
  await tap(page, 'One more: Minutes in it', 5);
  await page.getByLabel('Litres', { exact: true }).last().fill('8');
  await page.locator('.amount').waitFor();
  await whole(page, 'mix');
  await press(page, 'Safety, then mix');
  await title(page, 'Before you open it');
  await whole(page, 'safety');
  await press(page, 'All so: mixed');
  await pick(page, 'at once');
  await whole(page, 'what goes in');
  await press(page, 'Last piece goes in');
  await title(page, 'In the tub');
  await page.locator('.digits', { hasText: /^[0-5]:\d\d$/ }).waitFor();
  await shot(page, 'soak');
  await whole(page, 'soak');
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
  await whole(page, 'labels');
  const codes = await eventually(page, async () => {
    const shown = await page.locator('.label-row .stake-code').allInnerTexts();
    assert.equal(new Set(shown).size, 3);
    return shown;
  });
  await press(page, 'Done');
  await title(page, 'Repot');

  // What it leaves: dirty pots today, water not before its day, a look at the result in a week, hands off till then.
  await room(page, 'Round');
  await page.getByText(/Wash, then disinfect 3 dirty pots.*stone \(tray \d+\)/).waitFor();
  await page.getByText(/No water before/).first().waitFor();
  await page.evaluate((code) => { location.hash = '#/stock'; return code; }, codes[0]);
  await page.getByLabel('Find a lot').fill(codes[0]);
  await page.locator('.lot-row', { hasText: codes[0] }).first().click();
  await eventually(page, async () => {
    const lot = await page.locator('main').innerText();
    for (const said of ['Did the treatment work?', 'black spots', 'Bathed', 'potted as']) assert.ok(lot.toLowerCase().includes(said.toLowerCase()), `${said} in ${lot}`);
  });
  await whole(page, 'lot');

  // The record is whole: what was used, how much, on what, for how long, and until when hands stay off.
  await room(page, 'Book');
  await page.locator('a.entry', { hasText: 'Bathed' }).first().click();
  await eventually(page, async () => {
    const record = (await page.locator('main').innerText()).replace(/\s+/g, ' ');
    for (const said of ['16 g in 8 L', 'Against: fungus', '3 pieces on the bench (to flower)', '5 pieces on the bench (back-bulbs)', '5 minutes wanted']) assert.ok(record.includes(said), `${said} in ${record}`);
  });
  await whole(page, 'entry');

  // A second phone takes the example from a file; then both hold the same book.
  await room(page, 'Book');
  await page.getByRole('link', { name: 'Hand over' }).click();
  const [file] = await Promise.all([page.waitForEvent('download'), press(page, 'Save as a file')]);
  await whole(page, 'files');
  const other = await open({ scale: 1, colorScheme });
  try {
    const second = other.page;
    await second.getByRole('link', { name: 'From a file', exact: true }).click();
    await second.locator('input[type=file]').setInputFiles(await file.path());
    await second.getByText('it stays apart from a real book').waitFor();
    await whole(second, 'take in');
    await press(second, 'Take it in');
    await title(second, 'Round');
    await joined(second);
    const [answer] = await Promise.all([second.waitForEvent('download'), save(second)]);
    await page.locator('input[type=file]').setInputFiles(await answer.path());
    await page.getByText('1 entry new').waitFor();
    await press(page, 'Take it in');
    await title(page, 'Round');
    await room(page, 'Book');
    await page.getByRole('link', { name: 'Hand over' }).click();
    await eventually(page, async () => {
      const letters = await page.locator('.fingerprint').innerText();
      assert.match(letters, /^[A-Z]{8}$/);
      assert.equal(await second.locator('.fingerprint').innerText(), letters, 'both books are equal');
    });
    assert.deepEqual(other.complaints, []);
  } finally {
    await close(other);
  }
  assert.deepEqual(phone.complaints, []);
});

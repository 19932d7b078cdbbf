// How often a finger touches the glass, counted by the page itself, for the work that is done most; as a table in
// test-output/taps.txt. Letters typed are no taps, opening the keyboard is; nor is what belongs to the camera's own screen.
import assert from 'node:assert/strict';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after } from 'node:test';
import { fileURLToPath } from 'node:url';
import { film, modules, watching } from './film.mjs';
import { choose, eventually, follow, go, pick, press, room, title } from './hand.mjs';
import { close, phoneTest, picture, reopen } from './harness.mjs';

/** Runs in the page before the program: every finger that touches the glass. */
const counting = () => {
  window.touched = 0;
  addEventListener('pointerdown', (event) => {
    if (event.isTrusted && event.pointerType === 'touch') window.touched += 1;
  }, true);
};

const table = [];
after(async () => {
  const heads = ['what', 'from', 'taps', 'at most'];
  const rows = [heads, ...table.map((row) => row.map(String))];
  const widths = heads.map((_, column) => Math.max(...rows.map((row) => row[column].length)));
  const lines = rows.map((row) => `| ${row.map((cell, column) => cell.padEnd(widths[column])).join(' | ')} |`);
  lines.splice(1, 0, `| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`);
  const output = fileURLToPath(new URL('../../test-output/', import.meta.url));
  await mkdir(output, { recursive: true });
  await writeFile(path.join(output, 'taps.txt'), `${lines.join('\n')}\n`);
  process.stdout.write(`${lines.join('\n')}\n`);
});

/** A finger on what is there, once it is there; two taps of a hand lie some time apart. */
async function touch(page, target) {
  await target.waitFor();
  await page.waitForTimeout(400);
  await target.tap();
}
const key = (page, name) => touch(page, page.getByRole('button', { name, exact: true }));
const link = (page, name) => touch(page, page.getByRole('link', { name, exact: true }).first());
const toRoom = (page, name) => touch(page, page.getByRole('navigation').getByRole('link', { name }));

/** Does the work with a finger, and puts into the table how often it touched. */
async function counted(page, what, from, most, work) {
  const before = await page.evaluate(() => window.touched);
  await work();
  const taps = (await page.evaluate(() => window.touched)) - before;
  table.push([what, from, taps, most]);
  assert.ok(taps > 0, 'a finger was felt');
  assert.ok(taps <= most, `${what}: ${taps} taps, and ${most} are allowed`);
}

async function openBook(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
}

/** Lots by a list, five thousand rows of it at once at most. */
async function takeIn(page, rows) {
  await go(page, '#/stock/list');
  await title(page, 'A list you have');
  const text = ['No.,Plant,Plants,Bench', ...rows].join('\n');
  await page.locator('input[type=file]').setInputFiles({ name: 'stock.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  await page.waitForTimeout(400);
  await page.getByRole('button', { name: /^Take in \d+ lots?$/ }).click();
  await title(page, 'Stock');
}

phoneTest('late work is done at one tap from the open Round', { init: counting, scale: 1 }, async ({ page }) => {
  await openBook(page);
  for (const [words, day] of [['Sweep the cool house', '2026-01-05'], ['Mend the hose', '2026-01-06']]) {
    await go(page, '#/round/task');
    await page.getByLabel('What is to be done').fill(words);
    await choose(page, 'On another day');
    await page.locator('input[type=date]').fill(day);
    await press(page, 'Add this task');
    await press(page, 'Note it all the same');
    await title(page, 'Round');
    await page.getByText(words, { exact: true }).first().waitFor();
  }
  const late = page.locator('.work-late .work-do');
  await eventually(page, async () => assert.equal(await late.count(), 2));
  await counted(page, 'late work done', 'the open Round', 1, () => touch(page, late.first()));
  await eventually(page, async () => assert.equal(await late.count(), 1, 'it left the list'));
});

phoneTest('twelve pieces go from the lot to their labels', { init: counting, scale: 1 }, async ({ page, complaints }) => {
  await openBook(page);
  await takeIn(page, ['1,Cymbidium lowianum,1,Cool house']);
  await page.locator('.lot-row').first().click();
  await page.getByRole('heading', { name: 'Its year' }).waitFor();
  const potted = async (words) => {
    await page.getByText(words, { exact: true }).waitFor();
    await key(page, 'Potted');
  };
  const pieces = async (name, count) => {
    for (let piece = 0; piece < count; piece += 1) await page.getByRole('button', { name: `One more: ${name}` }).tap();
    await eventually(page, async () => assert.equal(await page.getByRole('group', { name, exact: true }).locator('output').innerText(), String(count)));
  };
  await counted(page, 'twelve pieces of three kinds repotted, to the labels and done', "the lot's page", 22, async () => {
    await key(page, 'Change');
    await key(page, 'To the bench, to divide');
    await key(page, 'Open it');
    await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
    await pieces('To flower', 4);
    await pieces('Starters', 6);
    await pieces('Back-bulbs', 2);
    await key(page, 'To the pots');
    await potted('To flower · 4 pieces');
    await potted('Starters · 6 pieces');
    await potted('Back-bulbs · 2 pieces');
    await title(page, 'Labels');
    await picture(page, 'taps-labels');
    await key(page, 'Done');
    await title(page, 'Repot');
  });
  await room(page, 'Stock');
  await eventually(page, async () => assert.equal(await page.locator('.lot-row').count(), 3, 'three lots, each with its label'));
  assert.deepEqual(complaints, []);
});

phoneTest('a bath that stands takes the next pieces', { init: counting, scale: 1 }, async ({ page, complaints }) => {
  await openBook(page);
  await go(page, '#/repot/new');
  await press(page, 'Not in the book');
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await press(page, 'One more: To flower');
  await press(page, 'One more: Starters');
  await press(page, 'To the pots');
  await press(page, 'A bath first');
  await page.getByLabel('Name on the label').fill('Soap');
  await page.getByLabel("The label's rate").fill('2 g/L');
  await press(page, 'Put it on the shelf');
  await pick(page, 'Yes, dipping');
  await page.locator('.choice', { hasText: 'Insects' }).click();
  for (let minute = 0; minute < 5; minute += 1) await press(page, 'One more: Minutes in it');
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
  await counted(page, 'the next batch in a standing bath, in and out', 'the open Round', 5, async () => {
    await toRoom(page, 'Treat');
    await touch(page, page.locator('a.pick', { hasText: 'Soap' }));
    await touch(page, page.locator('.choose').first());
    await key(page, 'Last piece goes in');
    await title(page, 'In the tub');
    await key(page, 'Out now');
    await page.getByText('2 batches out of it so far').waitFor();
  });
  assert.deepEqual(complaints, []);
});

phoneTest('one of ten thousand lots is found, by letters and by its code, and something seen on it', { init: counting, scale: 1 }, async (phone, t) => {
  let { page } = phone;
  await openBook(page);
  const genera = ['Cymbidium', 'Coelogyne', 'Dendrobium', 'Stanhopea', 'Maxillaria'];
  const rows = Array.from({ length: 10_000 }, (_, at) => `${at},${genera[at % 5]} ${at === 7_777 ? 'tigrinum' : 'lowianum'},${(at % 9) + 1},Bench ${at % 40}`);
  const from = Date.now();
  await takeIn(page, rows.slice(0, 5_000));
  await takeIn(page, rows.slice(5_000));
  t.diagnostic(`ten thousand lots taken in: ${((Date.now() - from) / 1000).toFixed(1)} s`);
  await page.getByText(/^10\W000 lots/).first().waitFor();
  await go(page, '#/');
  await title(page, 'Round');
  const tiger = page.locator('.lot-row', { hasText: 'tigrinum' });
  await counted(page, 'one lot of 10 000 by letters', 'the open Round', 3, async () => {
    await toRoom(page, 'Stock');
    await touch(page, page.getByLabel('Find a lot'));
    await page.keyboard.type('tigr');
    await page.getByText('1 found', { exact: true }).waitFor();
    await touch(page, tiger);
    await page.getByRole('heading', { name: 'Its year' }).waitFor();
  });
  const code = await page.getByRole('heading', { level: 1 }).innerText();

  // The label as it is printed, held before the camera of the same phone.
  await press(page, 'Print a label');
  await page.locator('.print-preview .print-code').waitFor();
  const folder = await mkdtemp(path.join(tmpdir(), 'velamen-film-'));
  const label = await film(folder, 'label.y4m', await modules(page));
  await go(page, '#/');
  await close(phone);
  const seeing = await reopen(phone, { flags: watching(label), permissions: ['camera'] });
  ({ page } = seeing);
  await title(page, 'Round');
  await counted(page, 'one lot of 10 000 by its code', 'the open Round', 2, async () => {
    await toRoom(page, 'Stock');
    await link(page, 'Find by code');
    await title(page, code);
  });
  await go(page, '#/');
  await title(page, 'Round');
  await counted(page, 'a finding with a photograph, on one lot of 10 000', 'the open Round', 5, async () => {
    await toRoom(page, 'Stock');
    await link(page, 'Find by code');
    await title(page, code);
    await link(page, 'Seen here');
    const [camera] = await Promise.all([page.waitForEvent('filechooser'), touch(page, page.locator('label', { hasText: 'Take a photograph' }))]);
    await camera.setFiles(await shot(page));
    await page.locator('button.photo img').waitFor();
    await key(page, 'Leaf spots');
    await page.getByText('Recorded: Leaf spots.').waitFor();
  });
  assert.deepEqual(seeing.complaints, []);
  await close(seeing);
  await rm(folder, { recursive: true, force: true });
});

/** A picture such as a camera gives, drawn in the page. */
async function shot(page) {
  const data = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [1200, 900];
    const pen = canvas.getContext('2d');
    pen.fillStyle = '#385';
    pen.fillRect(0, 0, 1200, 900);
    pen.fillStyle = '#210';
    for (let at = 0; at < 30; at += 1) pen.fillRect((at * 131) % 1200, (at * 67) % 900, 40, 30);
    return canvas.toDataURL('image/jpeg', 0.9).split(',')[1];
  });
  return { name: 'leaf.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(data, 'base64') };
}

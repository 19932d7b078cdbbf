// A few entries as squares from one phone's screen to another's camera, where there is no other way between them.
import assert from 'node:assert/strict';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { filmOf, watching } from './film.mjs';
import { addPlace, eventually, follow, go, press, startBook, title } from './hand.mjs';
import { axe, close, open, phoneTest, picture, reopen } from './harness.mjs';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';

// Out of the package: by itself the reader would fetch its module over the network.
const reader = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
prepareZXingModule({ overrides: { wasmBinary: await readFile(reader) } });

async function told(page, words) {
  try {
    await page.getByText(words).first().waitFor();
  } catch (fault) {
    // Two phones are at work, and the screen of the one that waits is what is asked for.
    throw new Error(`${words} is not said: ${await page.locator('body').innerText()}`, { cause: fault });
  }
}

async function toFiles(page) {
  await go(page, '#/book/files');
  await title(page, 'Hand over, take in');
}

const letters = async (page) => {
  await toFiles(page);
  return page.locator('.fingerprint').innerText();
};

/** Every square there is, photographed off the screen. */
async function photographed(page) {
  const number = page.locator('.reel-number');
  await number.waitFor();
  const [, of] = (await number.innerText()).match(/of (\d+)/);
  const pictures = new Map();
  while (pictures.size < Number(of)) {
    // The first press stops them from changing by themselves.
    if (Number(of) > 1) await press(page, 'Next square');
    const said = await number.innerText();
    await eventually(page, async () => assert.equal(await page.locator('.reel-square').count(), 1));
    pictures.set(said, await page.locator('.reel').screenshot());
  }
  return [...pictures].sort(([one], [other]) => parseInt(one.slice(7), 10) - parseInt(other.slice(7), 10)).map(([, png]) => png);
}

/** What another reader makes of a photograph. */
async function textOf(png) {
  const [read] = await readBarcodes(new Uint8Array(png), { formats: ['QRCode'] });
  return read?.text ?? '';
}

async function looked(page, name) {
  await picture(page, name);
  assert.deepEqual(await axe(page), []);
}

phoneTest('what a phone lacks goes as squares from screen to camera, and both books are one', {}, async (phone, t) => {
  const folder = await mkdtemp(path.join(tmpdir(), 'velamen-reel-'));
  t.after(() => rm(folder, { recursive: true, force: true }));
  const { page } = phone;
  await startBook(page);
  // A young book fits whole: a phone without one reads it.
  await toFiles(page);
  await press(page, 'Show as squares');
  await title(page, 'Show as squares');
  await told(page, 'The whole book');
  const whole = await photographed(page);
  assert.match(await textOf(whole[0]), new RegExp(`^VELAMEN1/1/${whole.length}/`), 'another reader reads it too');
  await looked(page, 'reel-show-whole');

  let other = await open({ flags: watching(await filmOf(folder, 'whole.y4m', whole)), permissions: ['camera'] });
  await follow(other.page, 'From a file');
  await follow(other.page, 'Read squares');
  await title(other.page, 'Read squares');
  await told(other.page, /^\d+ entr(y|ies) new$/);
  await press(other.page, 'Take it in');
  await title(other.page, 'Round');
  await go(other.page, '#/book');
  await other.page.locator('.entry', { hasText: 'A phone joined' }).nth(1).waitFor();
  // Its joining comes back as squares as well.
  await toFiles(other.page);
  await other.page.getByRole('radio', { name: /^Only what .+ lacks/ }).check({ force: true });
  await told(other.page, '1 entry, as far as is known here');
  await press(other.page, 'Show as squares');
  await told(other.page, /^1 entry$/);
  const back = await photographed(other.page);
  await press(other.page, 'The other phone has them all');
  await title(other.page, 'Hand over, take in');
  await told(other.page, 'Handed over by squares.');
  await close(other);
  await close(phone);

  const first = await reopen(phone, { flags: watching(await filmOf(folder, 'back.y4m', back)), permissions: ['camera'] });
  await go(first.page, '#/book/read');
  await told(first.page, '1 entry new');
  await press(first.page, 'Take it in');
  await title(first.page, 'Round');
  for (let number = 1; number <= 24; number += 1) await addPlace(first.page, `Bench ${number}, ${Math.random().toString(36).repeat(4)}`);
  await toFiles(first.page);
  await first.page.getByRole('radio', { name: /^Only what .+ lacks/ }).check({ force: true });
  await press(first.page, 'Show as squares');
  await told(first.page, /^24 entries$/);
  // They change by themselves.
  const number = first.page.locator('.reel-number');
  const before = await number.innerText();
  await eventually(first.page, async () => assert.notEqual(await number.innerText(), before));
  const squares = await photographed(first.page);
  assert.ok(squares.length >= 3, `${squares.length} squares`);
  await looked(first.page, 'reel-show');
  const now = await letters(first.page);

  // Out of order, and the first one again at the end.
  const mixed = [...squares.slice(1).reverse(), squares[0], squares[1], whole[0]];
  other = await reopen(other, { flags: watching(await filmOf(folder, 'part.y4m', mixed)), permissions: ['camera'] });
  await go(other.page, '#/book/read');
  await told(other.page, new RegExp(`^[1-9]\\d* of ${squares.length} read$`));
  await looked(other.page, 'reel-read');
  await told(other.page, '24 entries new');
  await looked(other.page, 'reel-plan');
  await press(other.page, 'Take it in');
  await title(other.page, 'Round');
  await eventually(other.page, async () => assert.equal(await letters(other.page), now));
  await close(other);
  await rm(other.profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  assert.deepEqual([...phone.complaints, ...first.complaints, ...other.complaints], []);
});

phoneTest('a label before the camera is no square of a book, and too much for squares is told', {}, async (phone, t) => {
  const folder = await mkdtemp(path.join(tmpdir(), 'velamen-reel-'));
  t.after(() => rm(folder, { recursive: true, force: true }));
  const { page } = phone;
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await go(page, '#/book/show');
  await told(page, /That is more than squares are for/);
  await looked(page, 'reel-too-much');
  await follow(page, 'Hand over as a file');
  await title(page, 'Hand over, take in');
  await go(page, '#/stock/labels');
  const code = page.locator('.print-preview .print-code');
  await page.locator('summary', { hasText: 'For a place' }).click();
  await page.locator('details', { hasText: 'For a place' }).locator('button.pick').first().click();
  await code.waitFor();
  const label = await page.locator('.print-preview .print-label').screenshot();
  assert.deepEqual(phone.complaints, []);
  await close(phone);

  const other = await open({ flags: watching(await filmOf(folder, 'label.y4m', [label])), permissions: ['camera'] });
  await startBook(other.page, 'Under the Elm');
  await go(other.page, '#/book/read');
  await told(other.page, /That square is of something else/);
  await close(other);
  await rm(other.profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  assert.deepEqual(other.complaints, []);
});

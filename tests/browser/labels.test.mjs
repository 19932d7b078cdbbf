// Labels: true to scale on paper, every code read by a reader that is not ours, found again by typing and by the camera;
// passports, papers and tables.
import assert from 'node:assert/strict';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { film, modules, noPrinter, watching } from './film.mjs';
import { choose, eventually, follow, go, press, room, title } from './hand.mjs';
import { axe, close, open, phoneTest, picture, reopen } from './harness.mjs';
import { around, pagesOf } from './pdf.mjs';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';

// Out of the package: by itself the reader would fetch its module over the network.
const reader = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
prepareZXingModule({ overrides: { wasmBinary: await readFile(reader) } });

const MM = 25.4 / 96;
/** How far from its place a label may lie, in millimetres. */
const TRUE = 0.3;

const more = (page, what) => press(page, `One more: ${what}`);

async function openBook(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
}

/** A lot at a first place; gives its code. */
async function addLot(page, name, plants, { isNew = false } = {}) {
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill(name);
  for (let count = 1; count < plants; count += 1) await more(page, 'Plants');
  if (isNew) await page.getByLabel('Name of the new place').fill('Cool house');
  else await choose(page, 'Cool house');
  await press(page, 'Add this lot');
  await title(page, 'In the book');
  return page.locator('.stake-code').innerText();
}

async function openLot(page) {
  await press(page, 'Open the lot');
  await press(page, 'Print a label');
  await title(page, 'Labels');
}

/** Prints all that is chosen and waits until it was handed over. */
async function print(page, words) {
  await press(page, `Print ${words}`);
  await page.getByText(`${words} handed to the printer.`).waitFor();
  assert.equal(await page.evaluate(() => window.printed), 1);
}

async function measures(page, typed) {
  const more = page.locator('details', { hasText: 'Measures of the sheet' });
  if (!(await more.evaluate((one) => one.open))) await more.locator('summary').click();
  for (const [label, text] of Object.entries(typed)) await page.getByLabel(label, { exact: true }).fill(text);
}

/** Boxes of dark runs as a picture, and what the other reader finds in it. */
async function decoded(parts) {
  const box = around(parts);
  const unit = Math.min(...parts.map((part) => part.bottom - part.top));
  const scale = 8;
  const side = Math.round((box.right - box.left) / unit);
  const width = (side + 8) * scale;
  const data = new Uint8ClampedArray(width * width * 4).fill(255);
  for (const part of parts) {
    const dots = (length, from) => Math.round(((length - from) / unit + 4) * scale);
    for (let y = dots(part.top, box.top); y < dots(part.bottom, box.top); y += 1) {
      for (let x = dots(part.left, box.left); x < dots(part.right, box.left); x += 1) {
        data.fill(0, (y * width + x) * 4, (y * width + x) * 4 + 3);
      }
    }
  }
  const [read] = await readBarcodes({ data, width, height: width, colorSpace: 'srgb' }, { formats: ['QRCode'] });
  return { text: read?.text, box, side };
}

const isCode = (shape) => shape.length > 100;

phoneTest('a sheet of labels lies true on its paper and another reader reads every code', { init: noPrinter }, async ({ page, complaints, context }) => {
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await page.reload();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  // What draws the codes is kept on the phone with the rest.
  await context.setOffline(true);
  await room(page, 'Stock');
  await follow(page, 'Labels');
  await page.getByText('Choose a lot above').waitFor();
  await press(page, 'All of the stock');
  await page.locator('.print-preview .print-code').waitFor();
  await choose(page, 'A4, 21 of 63.5 × 38.1 mm');
  await page.getByLabel('First free place').fill('5');
  const [labels, pages] = await eventually(page, async () => {
    const said = await page.locator('.screen-side').innerText();
    const [, labels, pages] = said.match(/^(\d+) labels on (\d+) pages$/).map(Number);
    assert.equal(pages, Math.ceil((labels + 4) / 21));
    return [labels, pages];
  });
  assert.deepEqual(await axe(page), []);
  await picture(page, 'labels');
  await print(page, `${labels} labels`);

  await page.emulateMedia({ media: 'print' });
  const laid = await page.locator('.print-page').evaluateAll((sheets) => sheets.map((sheet) => {
    const from = sheet.getBoundingClientRect();
    return [...sheet.querySelectorAll('.print-label')].map((label) => {
      const box = label.getBoundingClientRect();
      return { left: box.left - from.left, top: box.top - from.top, width: box.width, height: box.height };
    });
  }));
  // The sheet in this test's own words: three columns of 63.5 mm with 2.5 mm between, seven rows of 38.1 mm.
  const place = (nth) => ({ page: Math.floor(nth / 21), left: 7.25 + 66 * (nth % 3), top: 15.15 + 38.1 * Math.floor((nth % 21) / 3) });
  let nth = 4;
  for (const [number, sheet] of laid.entries()) {
    for (const label of sheet) {
      const at = place(nth);
      assert.equal(at.page, number, `label ${nth}`);
      for (const [is, wanted] of [[label.left, at.left], [label.top, at.top], [label.width, 63.5], [label.height, 38.1]]) {
        assert.ok(Math.abs(is * MM - wanted) <= TRUE, `label ${nth}: ${is * MM} mm against ${wanted}`);
      }
      nth += 1;
    }
  }
  assert.equal(nth - 4, labels);

  const paper = pagesOf(await page.pdf({ preferCSSPageSize: true }));
  assert.equal(paper.length, pages);
  const found = new Map();
  nth = 4;
  for (const sheet of paper) {
    assert.ok(Math.abs(sheet.width - 210) <= TRUE && Math.abs(sheet.height - 297) <= TRUE, `${sheet.width} × ${sheet.height}`);
    for (const code of sheet.shapes.filter(isCode)) {
      const { text, box, side } = await decoded(code);
      // Within its label after an edge of 1.5 mm, the code with four light modules around it fills 24 mm.
      const quiet = (24 * 4) / (side + 8);
      const at = place(nth);
      for (const [is, wanted] of [[box.left, at.left + 1.5 + quiet], [box.top, at.top + 1.5 + quiet], [box.right - box.left, 24 - 2 * quiet]]) {
        assert.ok(Math.abs(is - wanted) <= TRUE, `code ${nth} on paper: ${is} mm against ${wanted}`);
      }
      assert.ok(text?.startsWith(`${page.url().split('#')[0]}#/lot/`), `code ${nth} says ${text}`);
      found.set(text, (found.get(text) ?? 0) + 1);
      nth += 1;
    }
  }
  assert.equal(nth - 4, labels, 'a code on every label');
  await page.emulateMedia({ media: 'screen' });
  await context.setOffline(false);
  // It leads to the lot, which has as many labels as pots.
  for (const [link, count] of [...found].slice(0, 1)) {
    await page.goto(link);
    await page.getByText('Print a label').waitFor();
    await eventually(page, async () => {
      const pots = (await page.locator('.fact').first().innerText()).match(/(\d+) pots?/);
      if (pots) assert.equal(Number(pots[1]), count);
    });
  }
  assert.deepEqual(complaints.filter((line) => !/ERR_INTERNET_DISCONNECTED/.test(line)), []);
});

phoneTest('five hundred labels are made while the phone goes on listening', { init: noPrinter }, async ({ page, complaints }) => {
  await openBook(page);
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill('Cymbidium lowianum');
  const counted = page.locator('.counted', { hasText: 'Plants' }).first();
  await counted.getByRole('button', { name: 'Type the number' }).click();
  for (const digit of '500') await page.locator('.pad-key', { hasText: digit }).first().click();
  await counted.getByRole('button', { name: 'That is the number' }).click();
  await page.getByLabel('Name of the new place').fill('Cool house');
  await press(page, 'Add this lot');
  await openLot(page);
  await page.getByText('500 labels on 500 pages').waitFor();
  await print(page, '500 labels');
  const paper = pagesOf(await page.pdf({ preferCSSPageSize: true }));
  assert.equal(paper.length, 500);
  for (const sheet of paper) {
    assert.ok(Math.abs(sheet.width - 50) <= TRUE && Math.abs(sheet.height - 25) <= TRUE, `${sheet.width} × ${sheet.height}`);
    assert.equal(sheet.shapes.filter(isCode).length, 1);
  }
  // Whose label was printed is known on this phone.
  await press(page, 'Take all out');
  await page.getByText('Choose a lot above').waitFor();
  await press(page, 'All without a printed label');
  await page.getByText('Choose a lot above').waitFor();
  assert.deepEqual(complaints, []);
});

phoneTest('a long name is made smaller and wraps, and is never cut off', { init: noPrinter }, async ({ page, complaints }) => {
  await openBook(page);
  // A grex of forty letters.
  const grex = 'Quarterdeck Morningside Evergreen Dapple';
  const code = await addLot(page, `Cymbidium ${grex} 'Slow Bell'`, 2, { isNew: true });
  await openLot(page);
  const label = page.locator('.print-preview .print-label');
  await label.locator('.print-code').waitFor();
  const lines = () => label.locator('p').evaluateAll((lines) => lines.map((line) => {
    const range = document.createRange();
    range.selectNodeContents(line);
    const box = range.getBoundingClientRect();
    return { text: line.textContent, right: box.right, bottom: box.bottom, size: parseFloat(getComputedStyle(line).fontSize) };
  }));
  const holds = async () => {
    const box = await label.evaluate((one) => { const { right, bottom } = one.getBoundingClientRect(); return { right, bottom }; });
    const written = await lines();
    for (const line of written) {
      assert.ok(line.right <= box.right && line.bottom <= box.bottom, `${line.text} hangs over`);
      assert.ok(line.size * MM >= 1.69, `${line.text} in ${line.size * MM} mm`);
    }
    const all = written.map((line) => line.text).join(' ').replaceAll('\u{a0}', ' ');
    assert.ok(all.includes(`Cymbidium ${grex} 'Slow Bell'`) && all.includes(code), all);
    return written;
  };
  await eventually(page, async () => assert.ok((await holds()).length >= 3));
  assert.equal(await label.locator('i').first().textContent(), 'Cymbidium');
  await picture(page, 'labels-long-name');
  await measures(page, { 'Label, width': '40', 'Page, width': '40' });
  await page.waitForFunction(() => Math.abs(document.querySelector('.print-preview .print-label').getBoundingClientRect().width - 151.2) < 2);
  await eventually(page, holds);

  // Too small for all of it: said, and nothing is printed.
  await measures(page, { 'Label, width': '20', 'Label, height': '9', 'Page, width': '20', 'Page, height': '9' });
  await page.locator('.warn', { hasText: `What belongs on the label of ${code} does not fit` }).first().waitFor();
  await press(page, 'Print 2 labels');
  await page.waitForFunction(() => document.querySelectorAll('.warn').length === 2);
  assert.equal(await page.evaluate(() => window.printed), 0);
  assert.deepEqual(complaints, []);
});

phoneTest('a sheet that cannot be gets one clear sentence each, and nothing typed is lost', { init: noPrinter }, async ({ page, complaints }) => {
  await openBook(page);
  await addLot(page, 'Cymbidium lowianum', 1, { isNew: true });
  await openLot(page);
  await choose(page, 'A4, 24 of 70 × 37 mm');
  const key = page.getByRole('button', { name: 'Print 1 label' });
  for (const [field, typed, sentence] of [
    ['Label, width', 'wide', 'Label, width: a number of millimetres is needed.'],
    ['Label, height', '0', 'Label, height: between 8 mm and 420 mm.'],
    ['Columns', '4', 'The columns need 280 mm and the page is 210 mm wide.'],
    ['Gap between rows', '2', 'The rows need 310.5 mm and the page is 297 mm high.'],
    ['Rows', '2,5', 'Rows: a whole number is needed.'],
    ['First free place', '25', 'This sheet has 24 places.'],
  ]) {
    const before = field === 'First free place' ? '1' : undefined;
    const box = page.getByLabel(field, { exact: true });
    if (!before) await measures(page, {});
    const kept = await box.inputValue();
    await box.fill(typed);
    await page.getByText(sentence).waitFor();
    await eventually(page, async () => {
      assert.equal(await box.inputValue(), typed);
      assert.equal(await key.getAttribute('aria-disabled'), 'true', sentence);
    });
    await box.fill(kept);
    await page.getByText(sentence).waitFor({ state: 'detached' });
  }
  await eventually(page, async () => assert.notEqual(await key.getAttribute('aria-disabled'), 'true'));
  assert.deepEqual(complaints, []);
});

phoneTest('a lot is found by its typed code, and a slip never leads to another', {}, async ({ page, complaints }) => {
  await openBook(page);
  const code = await addLot(page, 'Cymbidium lowianum', 2, { isNew: true });
  await addLot(page, 'Coelogyne cristata', 1);
  await room(page, 'Book');
  // Two taps from any room.
  await room(page, 'Stock');
  await follow(page, 'Find by code');
  const box = page.getByLabel('Code on the label');
  const letters = 'ACDEFHJKMNPRTVWXY';
  const other = letters[(letters.indexOf(code.at(-1)) + 1) % letters.length];
  const plain = code.replace('-', '');
  assert.notEqual(plain[3], plain[4], 'two digits that can be swapped');
  const swapped = `${plain.slice(0, 3)}${plain[4]}${plain[3]}${plain.slice(5)}`;
  for (const [typed, sentence] of [
    [`${code.slice(0, -1)}${other}`, 'The letter at the end does not go with the rest'],
    [swapped, 'The letter at the end does not go with the rest'],
    [code.slice(0, -1), 'The letter at the end is missing.'],
    ['', 'Type the code that stands on the label.'],
    ['K', 'too short for a code'],
  ]) {
    await box.fill(typed);
    await press(page, 'Open');
    await page.locator('.field-error', { hasText: new RegExp(sentence) }).waitFor();
    await eventually(page, async () => assert.equal(await box.inputValue(), typed));
    assert.match(page.url(), /#\/stock\/find$/);
  }
  assert.deepEqual(await axe(page), []);
  await picture(page, 'find');
  await box.fill(code.toLowerCase().replace('-', ' '));
  await press(page, 'Open');
  await page.locator('.stake', { hasText: 'Cymbidium lowianum' }).first().waitFor();
  await title(page, code);
  assert.deepEqual(complaints, []);
});

phoneTest('a label held before the camera opens its lot; a stranger\'s is said to be one', {}, async (phone) => {
  const folder = await mkdtemp(path.join(tmpdir(), 'velamen-film-'));
  const { page } = phone;
  await openBook(page);
  const code = await addLot(page, 'Cymbidium lowianum', 2, { isNew: true });
  await openLot(page);
  await page.locator('.print-preview .print-code').waitFor();
  const own = await film(folder, 'own.y4m', await modules(page));
  await close(phone);

  const seeing = await reopen(phone, { flags: watching(own), permissions: ['camera'] });
  await room(seeing.page, 'Stock');
  await follow(seeing.page, 'Find by code');
  // The camera was allowed before: nothing more is tapped.
  await title(seeing.page, code);
  await seeing.page.locator('.stake', { hasText: 'Cymbidium lowianum' }).first().waitFor();
  await seeing.page.getByText('Comes from').first().waitFor();
  await close(seeing);

  // The same label before a phone with another book.
  const other = await open({ flags: watching(own), permissions: ['camera'] });
  await openBook(other.page);
  await addLot(other.page, 'Coelogyne cristata', 1, { isNew: true });
  await room(other.page, 'Stock');
  await follow(other.page, 'Find by code');
  await other.page.getByText('That label is a stranger\'s').waitFor();
  assert.match(other.page.url(), /#\/stock\/find$/);
  await picture(other.page, 'find-stranger');
  assert.deepEqual([...seeing.complaints, ...other.complaints], []);
  await close(other);
  await rm(other.profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  await rm(folder, { recursive: true, force: true });
});

phoneTest('the label of a bench leads to the bench, and a tray tag to its clump', { init: noPrinter }, async ({ page, complaints }) => {
  await openBook(page);
  await addLot(page, 'Cymbidium lowianum', 1, { isNew: true });
  const link = async () => {
    await page.locator('.print-preview .print-code').waitFor();
    const rows = await modules(page);
    const [scale, quiet] = [4, 4];
    const side = (rows.length + 2 * quiet) * scale;
    const data = new Uint8ClampedArray(side * side * 4).fill(255);
    for (let y = 0; y < side; y += 1) {
      for (let x = 0; x < side; x += 1) {
        const dark = rows[Math.floor(y / scale) - quiet]?.[Math.floor(x / scale) - quiet];
        if (dark) data.fill(0, (y * side + x) * 4, (y * side + x) * 4 + 3);
      }
    }
    const [read] = await readBarcodes({ data, width: side, height: side, colorSpace: 'srgb' }, { formats: ['QRCode'] });
    return read?.text ?? '';
  };
  await go(page, '#/stock/labels');
  await page.locator('summary', { hasText: 'For a place' }).click();
  await page.locator('button.pick', { hasText: 'Cool house' }).click();
  const label = page.locator('.print-preview .print-label');
  await eventually(page, async () => assert.equal((await label.innerText()).trim().replaceAll('\u{a0}', ' '), 'Cool house'));
  await picture(page, 'labels-place');
  const bench = await eventually(page, async () => {
    const read = await link();
    assert.match(read, /#\/shed\/places\/[0-9a-z-]+$/);
    return read;
  });
  await print(page, '1 label');
  await go(page, bench.slice(bench.indexOf('#')));
  await title(page, 'Cool house');

  await room(page, 'Repot');
  await follow(page, 'A clump to the bench');
  await page.locator('.choose', { hasText: 'Cymbidium lowianum' }).click();
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await press(page, 'Print its tray tag');
  await title(page, 'Labels');
  await eventually(page, async () => {
    const said = (await label.innerText()).replaceAll('\u{a0}', ' ');
    assert.ok(/Cymbidium\s+lowianum/.test(said) && said.includes('Tray 1') && said.includes('on the bench since'), said);
  });
  await picture(page, 'labels-tray');
  const tray = await eventually(page, async () => {
    const read = await link();
    assert.match(read, /#\/repot\/[0-9a-z-]+$/);
    return read;
  });
  await go(page, tray.slice(tray.indexOf('#')));
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  assert.deepEqual(complaints, []);
});

phoneTest('a camera that is refused leaves the typing', {}, async ({ page, context, complaints }) => {
  await context.clearPermissions();
  await openBook(page);
  await addLot(page, 'Cymbidium lowianum', 1, { isNew: true });
  await room(page, 'Stock');
  await follow(page, 'Find by code');
  await press(page, 'Use the camera');
  await page.getByText(/The camera is not allowed here|There is no camera to be had here/).waitFor();
  await page.getByLabel('Code on the label').waitFor();
  assert.deepEqual(complaints, []);
});

phoneTest('a passport is printed only with an operator\'s number, with its four elements', { init: noPrinter }, async ({ page, complaints }) => {
  await openBook(page);
  const code = await addLot(page, 'Cymbidium lowianum', 1, { isNew: true });
  await openLot(page);
  await page.locator('.print-preview .print-code').waitFor();
  await choose(page, 'European Union', 'Plant passport');
  await page.getByText('Only an operator whom the plant health service has authorised').waitFor();
  await page.getByText('A passport needs your operator\'s number first.').waitFor();
  await eventually(page, async () => {
    assert.equal(await page.locator('.print-passport').count(), 0);
    assert.equal(await page.getByRole('button', { name: 'Print 1 label' }).getAttribute('aria-disabled'), 'true');
  });
  await page.getByLabel('Operator\'s registration number').fill('123456');
  await press(page, 'Keep the number');
  await page.getByText('The union\'s passport wants the number with the state before it').waitFor();
  await page.getByLabel('Operator\'s registration number').fill('NL-123456');
  await press(page, 'Keep the number');
  const passport = page.locator('.print-preview .print-passport');
  await passport.waitFor();
  await eventually(page, async () => {
    const text = (await passport.innerText()).replaceAll('\u{a0}', ' ').replace(/\s+/g, ' ');
    assert.match(text, new RegExp(`Plant Passport A Cymbidium lowianum B NL-123456 C ${code} D NL`));
  });
  assert.equal(await passport.locator('.print-flag').count(), 1);
  const hangs = await page.evaluate(() => {
    const label = document.querySelector('.print-preview .print-label').getBoundingClientRect();
    return [...document.querySelectorAll('.print-preview .print-passport, .print-preview .print-passport *')]
      .filter((part) => { const box = part.getBoundingClientRect(); return box.right > label.right || box.bottom > label.bottom; })
      .map((part) => part.outerHTML);
  });
  assert.deepEqual(hangs, []);
  await page.getByLabel('Where the plants were grown').fill('th');
  await page.waitForFunction(() => document.querySelector('.print-passport').textContent.includes('TH'));
  await picture(page, 'labels-passport');
  await choose(page, 'United Kingdom', 'Plant passport');
  await page.waitForFunction(() => document.querySelector('.print-preview .print-heading')?.textContent.includes('UK Plant Passport'));
  await eventually(page, async () => assert.equal(await page.locator('.print-preview .print-flag').count(), 0));
  assert.deepEqual(await axe(page), []);
  await print(page, '1 label');
  assert.equal(await page.locator('.print-page .print-passport').count(), 1);
  assert.deepEqual(complaints, []);
});

phoneTest('papers and lists say what the book knows, and no more', {}, async ({ page, complaints }) => {
  await openBook(page);
  const code = await addLot(page, 'Paphiopedilum Maudiae', 2, { isNew: true });
  await press(page, 'Open the lot');
  await follow(page, 'Papers that go with it');
  await page.getByText('This paper is no permit and no certificate.').waitFor();
  const paper = page.locator('.paper');
  await paper.locator('dt:text-is("CITES appendix") + dd:text-is("I")').waitFor();
  await paper.locator('dt:text-is("Source code") + dd:text-is("not said")').waitFor();
  await page.getByText('For a hybrid of Appendix I the authority says whether it is A or D.').waitFor();
  await choose(page, 'D, Appendix I, propagated for trade');
  await paper.locator('dd', { hasText: 'D, Appendix I' }).waitFor();
  assert.ok(!/no papers|not needed|exempt/i.test(await paper.innerText()));
  assert.deepEqual(await axe(page), []);
  await picture(page, 'lot-papers');

  await room(page, 'Stock');
  await follow(page, 'Lists');
  await page.locator('td', { hasText: 'Paphiopedilum Maudiae' }).waitFor();
  const saving = page.waitForEvent('download');
  await press(page, 'Save as a table');
  const download = await saving;
  assert.match(download.suggestedFilename(), /^velamen-stock-\d{4}-\d\d-\d\d\.csv$/);
  const [head, row] = (await readFile(await download.path(), 'utf8')).split('\r\n');
  const cell = (name) => row.split(',')[head.split(',').indexOf(name)];
  assert.deepEqual([cell('code'), cell('name'), cell('plants'), cell('place')], [code, 'Paphiopedilum Maudiae', '2', 'Cool house']);
  assert.deepEqual(await axe(page), []);
  await picture(page, 'lists');
  await choose(page, 'Losses');
  await page.getByText('Nothing in it yet.').waitFor();
  assert.deepEqual(complaints, []);
});

phoneTest('beside how many labels there are, help keeps its corner on every phone, in both languages', {}, async ({ page, complaints }) => {
  await openBook(page);
  await addLot(page, 'Cymbidium lowianum', 12, { isNew: true });
  await openLot(page);
  for (const language of ['en', 'es']) {
    await page.evaluate((chosen) => localStorage.setItem('velamen.preferences', JSON.stringify({ ...JSON.parse(localStorage.getItem('velamen.preferences') ?? '{}'), language: chosen })), language);
    await page.reload();
    await title(page, { en: 'Labels', es: 'Etiquetas' }[language]);
    await page.locator('.screen-side', { hasText: /^12 (labels|etiquetas) / }).waitFor();
    for (const [width, text] of [[390, ''], [360, ''], [320, ''], [320, '200%']]) {
      await page.setViewportSize({ width, height: 640 });
      await page.evaluate((size) => { document.documentElement.style.fontSize = size; }, text);
      await eventually(page, async () => {
        const [help, name] = await Promise.all(['.screen-help', '.screen-title'].map((one) => page.locator(one).boundingBox()));
        assert.ok(help.x + help.width > width - 16, `${language} ${width} ${text}: help stands at ${help.x}`);
        assert.ok(help.y < name.y + name.height / 2, `${language} ${width} ${text}: help stands at ${help.y} under the name at ${name.y}`);
      });
      await picture(page, `labels-head-${language}-${width}${text ? '-doubled' : ''}`);
    }
    await page.evaluate(() => { document.documentElement.style.fontSize = ''; });
  }
  assert.deepEqual(complaints, []);
});

// A finding with a photograph: few taps, small and without the place it was taken at, kept through a dead battery,
// shown where the finding is; and what is no picture is refused in words.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import { eventually, press } from './hand.mjs';
import { axe, kill, phoneTest, picture, reopen } from './harness.mjs';

// As in core/src/limits.rs.
const PHOTO_SOURCE_BYTES_MAX = 40 << 20;
const PHOTO_SIDE_PX_MAX = 1600;

const take = (page) => page.getByLabel('Take a photograph');
const choose = (page) => page.getByLabel('Choose a photograph');
const show = (target) => target.evaluate((part) => part.scrollIntoView({ block: 'center' }));
const thumbs = (page) => page.locator('button.photo img');

/**
 * A picture of leaf spots as a camera writes it, drawn by the browser itself: `{ name, mimeType, buffer }`. With
 * `gps`, an EXIF block says where it was taken (TIFF 6.0 and Exif 2.32: tag 0x8825 leads to the GPS tags) and that it
 * lies on its side (tag 0x0112, value 6).
 */
async function shot(page, { width, height, type = 'image/jpeg', spots = 40, gps = false }) {
  const base64 = await page.evaluate(async ([width, height, type, spots]) => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [width, height];
    const pen = canvas.getContext('2d');
    const leaf = pen.createLinearGradient(0, 0, width, height);
    leaf.addColorStop(0, '#3f7d3a');
    leaf.addColorStop(1, '#7fae4f');
    pen.fillStyle = leaf;
    pen.fillRect(0, 0, width, height);
    pen.fillStyle = '#2a1a10';
    for (let spot = 0; spot < spots; spot += 1) {
      pen.beginPath();
      pen.arc((spot * 733) % width, (spot * 419) % height, 10 + ((spot * 7) % 60), 0, 7);
      pen.fill();
    }
    const blob = await new Promise((done) => canvas.toBlob(done, type));
    const bytes = new Uint8Array(await blob.arrayBuffer());
    let text = '';
    for (const byte of bytes) text += String.fromCharCode(byte);
    return btoa(text);
  }, [width, height, type, spots]);
  const plain = Buffer.from(base64, 'base64');
  const buffer = gps ? Buffer.concat([plain.subarray(0, 2), exif(), plain.subarray(2)]) : plain;
  return { name: type === 'image/png' ? 'leaf.png' : 'leaf.jpg', mimeType: type, buffer };
}

function exif() {
  const tiff = Buffer.alloc(128);
  let at = tiff.write('MM\0*', 0, 'latin1');
  const word = (value) => { at = tiff.writeUInt16BE(value, at); };
  const long = (value) => { at = tiff.writeUInt32BE(value, at); };
  const entry = (tag, kind, count, value) => { word(tag); word(kind); long(count); long(value); };
  long(8);
  word(2);
  entry(0x0112, 3, 1, 6 << 16);
  entry(0x8825, 4, 1, 38);
  long(0);
  word(2);
  entry(1, 2, 2, 0x4e000000);
  entry(2, 5, 3, 68);
  long(0);
  for (const part of [41, 1, 23, 1, 777, 100]) long(part);
  const body = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
}

/** What the phone has in its store of photographs. */
async function stored(page) {
  const rows = await page.evaluate(() => new Promise((done, failed) => {
    const opening = indexedDB.open('velamen');
    opening.onerror = () => failed(opening.error);
    opening.onsuccess = () => {
      const store = opening.result.transaction('photos').objectStore('photos');
      const [keys, values] = [store.getAllKeys(), store.getAll()];
      store.transaction.oncomplete = () => {
        opening.result.close();
        done(keys.result.map((key, n) => ({ key, type: values.result[n].type, bytes: [...values.result[n].bytes] })));
      };
    };
  }));
  return rows.map((row) => ({ ...row, bytes: Buffer.from(row.bytes) }));
}

async function size(page, locator) {
  await locator.evaluate((image) => image.decode());
  return locator.evaluate((image) => [image.naturalWidth, image.naturalHeight]);
}

/** A book with one lot, open at the Round. */
async function oneLot(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor();
  await page.getByRole('navigation').getByRole('link', { name: 'Stock' }).click();
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill('Cymbidium lowianum');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
  await page.getByRole('navigation').getByRole('link', { name: 'Round' }).click();
  await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor();
}

/** From the Round to "Seen here" of the only lot, tap by tap. */
async function toSeen(page, tap) {
  await tap(page.getByRole('navigation').getByRole('link', { name: 'Stock' }));
  await tap(page.locator('.lot-row').first());
  await tap(page.getByRole('link', { name: 'Seen here', exact: true }));
  await page.getByRole('heading', { level: 1, name: 'Seen here' }).waitFor();
}

phoneTest('a finding with a photograph takes five taps from the Round, and the picture does not say where it was taken', {}, async (phone, t) => {
  const { page, complaints } = phone;
  await oneLot(page);
  const photo = await shot(page, { width: 3000, height: 2000, gps: true });
  assert.ok(photo.buffer.includes('Exif'), 'the camera wrote where it was');
  let taps = 0;
  const tap = async (target) => {
    taps += 1;
    await target.click();
  };
  await toSeen(page, tap);
  taps += 1;
  await take(page).setInputFiles(photo);
  await thumbs(page).waitFor();
  await page.waitForTimeout(400);
  await tap(page.getByRole('button', { name: 'Leaf spots', exact: true }));
  await page.getByText('Recorded: Leaf spots.').waitFor();
  t.diagnostic(`a finding with a photograph: ${taps} taps from the open Round`);
  assert.ok(taps <= 5, `${taps} taps`);

  const [kept, ...more] = await stored(page);
  assert.ok(kept, 'it is on the disk once it is shown');
  assert.equal(more.length, 0);
  assert.equal(kept.type, 'image/jpeg');
  assert.equal(kept.key, createHash('sha256').update(kept.bytes).digest('hex'));
  assert.ok(!kept.bytes.includes('Exif') && !kept.bytes.includes(exif().subarray(78, 102)), 'the place is gone');
  t.diagnostic(`3000 x 2000, ${photo.buffer.length} bytes: kept in ${kept.bytes.length}`);

  await page.reload();
  await page.getByRole('heading', { level: 1, name: 'Leaf spots' }).waitFor();
  await page.waitForTimeout(400);
  await page.getByText('To the lot', { exact: true }).click();
  await page.getByRole('heading', { name: 'Its year' }).waitFor();
  const thumb = thumbs(page);
  await thumb.waitFor();
  await eventually(page, async () => assert.deepEqual(await size(page, thumb), [1067, 1600], 'upright, and 1600 px on the longer side'));
  await thumb.scrollIntoViewIfNeeded();
  await picture(page, 'photo-lot');
  assert.deepEqual(await axe(page), []);

  await page.getByRole('button', { name: 'Photograph: open it large' }).focus();
  await page.keyboard.press('Enter');
  const large = page.getByRole('dialog', { name: 'Photograph' }).getByRole('img', { name: 'Photograph' });
  await large.waitFor();
  await picture(page, 'photo-large');
  assert.deepEqual(await axe(page), []);
  await page.keyboard.press('Escape');
  await large.waitFor({ state: 'hidden' });
  await eventually(page, async () => assert.equal(await page.evaluate(() => document.activeElement?.className), 'photo', 'the focus is back on the small one'));
  await page.getByRole('button', { name: 'Photograph: open it large' }).click();
  await page.getByRole('button', { name: 'Close' }).click();
  await large.waitFor({ state: 'hidden' });

  await page.locator('a.lot-row', { hasText: 'leaf spots' }).click();
  await page.getByRole('heading', { level: 1, name: 'One entry' }).waitFor();
  await thumbs(page).waitFor();
  await picture(page, 'photo-entry');
  assert.deepEqual(await axe(page), []);
  assert.deepEqual(complaints, []);
});

phoneTest('what was taken and typed before the battery died is there, and goes into the finding', {}, async (phone) => {
  let { page } = phone;
  await oneLot(page);
  await toSeen(page, (target) => target.click());
  await page.getByLabel('In your own words').fill('yellow between the veins');
  await choose(page).setInputFiles(await shot(page, { width: 900, height: 600, type: 'image/png' }));
  await thumbs(page).waitFor();
  const [before] = await stored(page);
  const seen = new URL(page.url()).hash;

  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await page.locator('h1').waitFor();
  await page.evaluate((hash) => { location.hash = hash; }, seen);
  await thumbs(page).waitFor();
  await eventually(page, async () => assert.equal(await page.getByLabel('In your own words').inputValue(), 'yellow between the veins'));
  await press(page, 'Record this');
  await page.getByText('Recorded: yellow between the veins.').waitFor();
  await page.getByRole('heading', { name: 'Its year' }).waitFor();
  await thumbs(page).waitFor();
  await eventually(page, async () => assert.deepEqual(await size(page, thumbs(page)), [900, 600], 'a small picture is not made larger'));
  const [after] = await stored(page);
  assert.equal(after.key, before.key);
});

phoneTest('a picture is made smaller from one pixel too many on', {}, async ({ page, complaints }) => {
  await oneLot(page);
  await toSeen(page, (target) => target.click());
  for (const [nth, more] of [-1, 0, 1].entries()) {
    await choose(page).setInputFiles(await shot(page, { width: PHOTO_SIDE_PX_MAX + more, height: 1000 }));
    const thumb = thumbs(page).nth(nth);
    await thumb.waitFor();
    const sides = more > 0 ? [PHOTO_SIDE_PX_MAX, 999] : [PHOTO_SIDE_PX_MAX + more, 1000];
    await eventually(page, async () => assert.deepEqual(await size(page, thumb), sides));
  }
  assert.deepEqual(complaints, []);
});

for (const colorScheme of ['light', 'dark']) {
  phoneTest(`a file that is no picture is refused, a photograph goes out and comes back, in ${colorScheme}`, { colorScheme }, async ({ page, complaints, profile }) => {
    await oneLot(page);
    await toSeen(page, (target) => target.click());
    const own = page.getByLabel('In your own words');
    await own.fill('holes along the edge');
    await choose(page).setInputFiles(await shot(page, { width: 800, height: 600 }));
    await thumbs(page).waitFor();
    await choose(page).setInputFiles({ name: 'leaf.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('milk, bark, labels\n') });
    await page.getByText(/cannot read this file as a picture/).waitFor();
    await eventually(page, async () => {
      assert.equal(await own.inputValue(), 'holes along the edge');
      assert.equal(await thumbs(page).count(), 1);
    });
    await show(page.locator('.field-error'));
    await picture(page, `photo-refused-${colorScheme}`);
    assert.deepEqual(await axe(page), []);

    // From the disk: so much is long on its way through the debugger. What is not too large is tried, and is no picture.
    for (const more of [1, 0, 1, -1]) {
      const large = path.join(profile, `large${more}.jpg`);
      await writeFile(large, Buffer.alloc(PHOTO_SOURCE_BYTES_MAX + more));
      await choose(page).setInputFiles(large);
      await page.getByText(more > 0 ? /too large: 40 MB/ : /cannot read this file as a picture/).waitFor();
    }

    await press(page, 'Remove: Photograph');
    await thumbs(page).waitFor({ state: 'detached' });
    await press(page, 'Put the photograph back');
    await thumbs(page).waitFor();
    for (let spots = 1; spots <= 5; spots += 1) {
      await choose(page).setInputFiles(await shot(page, { width: 400, height: 300, spots }));
      await thumbs(page).nth(spots).waitFor();
    }
    await page.getByText(/6 photographs are the most/).waitFor();
    await eventually(page, async () => assert.ok(await take(page).isDisabled()));
    await show(thumbs(page).nth(3));
    await picture(page, `photo-full-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
    await press(page, 'Slugs or snails');
    await page.getByText('Recorded: Slugs or snails.').waitFor();
    await page.waitForTimeout(400);
    await page.getByText('To the lot', { exact: true }).click();
    await page.locator('a.lot-row', { hasText: 'slugs or snails' }).click();
    await page.getByText('holes along the edge').waitFor();
    await eventually(page, async () => assert.equal(await thumbs(page).count(), 6));
    await show(thumbs(page).nth(3));
    await picture(page, `photo-six-${colorScheme}`);
    assert.deepEqual(await axe(page), []);
    assert.deepEqual(complaints, []);
  });
}

phoneTest('on another phone a sentence stands where the photograph is not', {}, async ({ page }) => {
  await oneLot(page);
  await toSeen(page, (target) => target.click());
  await take(page).setInputFiles(await shot(page, { width: 800, height: 600 }));
  await thumbs(page).waitFor();
  await press(page, 'Scale');
  await page.getByText('Recorded: Scale.').waitFor();
  await page.evaluate(() => new Promise((done, failed) => {
    const opening = indexedDB.open('velamen');
    opening.onsuccess = () => {
      const transaction = opening.result.transaction('photos', 'readwrite');
      transaction.objectStore('photos').clear();
      transaction.oncomplete = () => { opening.result.close(); done(); };
      transaction.onabort = failed;
    };
  }));
  await page.reload();
  await page.getByText(/Not on this phone/).waitFor();
  await show(page.getByText(/Not on this phone/));
  await picture(page, 'photo-away');
  assert.deepEqual(await axe(page), []);
});

// The Book: handed over and taken in, put right, and asked about; and the Shed, where its days, pots and mixes are set.
import assert from 'node:assert/strict';
import { cp, mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { choose, eventually, follow, press, room, startBook, tap, title, toTheEnd } from './hand.mjs';
import { axe, close, kill, open, phoneTest, picture, reopen } from './harness.mjs';

const measure = (page, name) => page.getByRole('textbox', { name, exact: true });
const told = (page, words) => page.getByText(words).first().waitFor();

async function toBook(page) {
  await room(page, 'Book');
  await title(page, 'Book');
}

async function toShed(page, part) {
  await toBook(page);
  await follow(page, 'The Shed');
  await title(page, 'Shed');
  await follow(page, part);
  await title(page, part);
}

async function addPlace(page, name) {
  await toShed(page, 'Places');
  await page.getByLabel('Name of the place').fill(name);
  await press(page, 'Add this place');
  await page.getByRole('link', { name, exact: true }).waitFor();
}

async function addLot(page, name, place) {
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill(name);
  await choose(page, place);
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
}

/** The whole book as the text of the file that "Save as a file" gives. */
async function handOver(page) {
  await toBook(page);
  await follow(page, 'Hand over or take in');
  await title(page, 'Hand over, take in');
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save as a file')]);
  return readFile(await download.path(), 'utf8');
}

const chooseFile = (page, text, name = 'book.txt') =>
  page.locator('input[type=file]').setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });

/** A phone that has taken a book in joins it with an entry of its own, a moment after the Round is shown. */
async function joined(page) {
  await toBook(page);
  await page.locator('.entry', { hasText: 'A phone joined' }).nth(1).waitFor();
}

/** Every sentence of the Book, as it is shown. */
async function sentences(page) {
  await toBook(page);
  await page.locator('.entry').first().waitFor();
  await toTheEnd(page, 'More of these');
  return page.locator('.entry').allInnerTexts();
}

phoneTest('a second phone takes the book in from nothing, and again without finding anything new', {}, async ({ page }) => {
  await startBook(page);
  await addPlace(page, 'Cool house, bench 2');
  await addLot(page, 'Cymbidium lowianum', 'Cool house, bench 2');
  await toBook(page);
  await told(page, 'Never handed over.');
  const text = await handOver(page);
  await told(page, 'The whole book is in the file.');
  // The file lies in the downloads of this very phone.
  await toBook(page);
  await told(page, 'Never handed over.');
  await told(page, 'Saved on this phone. It is safe once it lies somewhere else.');
  await press(page, 'It lies somewhere else now');
  await told(page, 'Handed over today.');
  await told(page, 'Nothing would be lost with this phone.');
  assert.equal(await page.getByText('Saved on this phone.').count(), 0);
  await picture(page, 'book-handed-over');
  assert.deepEqual(await axe(page), []);
  const here = await sentences(page);

  const other = await open();
  try {
    const second = other.page;
    await title(second, "The nursery's book");
    await follow(second, 'From a file');
    await chooseFile(second, text);
    await told(second, /entries new/);
    assert.deepEqual(await axe(second), []);
    await press(second, 'Take it in');
    await title(second, 'Round');
    const there = await eventually(second, async () => {
      const now = await sentences(second);
      assert.equal(now.length, here.length + 1, 'the second phone joins with an entry of its own');
      return now;
    });
    const shared = there.filter((row) => !row.includes('A phone joined'));
    assert.deepEqual(shared, here.filter((row) => !row.includes('A phone joined')));
    await follow(second, 'Hand over or take in');
    await chooseFile(second, text);
    await told(second, '0 entries new');
    await press(second, 'Take it in');
    await title(second, 'Round');
    await eventually(second, async () => assert.deepEqual(await sentences(second), there));
  } finally {
    await close(other);
  }
});

phoneTest('the Book is looked through by lot, place and kind, with slips only when asked for, and shown whole again', {}, async ({ page, complaints }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  await addPlace(page, 'Lath house');
  await addLot(page, 'Cymbidium lowianum', 'Cool house');
  await press(page, 'Undo');
  await told(page, 'Undone.');
  await addLot(page, 'Vanda coerulea', 'Lath house');
  const whole = await sentences(page);
  assert.equal(whole.filter((row) => row.includes('lowianum')).length, 0, 'a slip is folded away');
  const shown = page.locator('.entry');
  const only = async (number) => {
    await page.waitForFunction((count) => document.querySelectorAll('.entry').length === count, number);
    return (await shown.allInnerTexts()).join(' | ');
  };
  await page.getByText('Look for', { exact: true }).click();
  await page.getByLabel('A lot, by name or code').fill('coerulea');
  assert.match(await only(1), /Vanda coerulea/);
  await picture(page, 'book-looked-through');
  assert.deepEqual(await axe(page), []);
  await shown.first().click();
  await title(page, 'One entry');
  await page.goBack();
  assert.match(await only(1), /Vanda coerulea/, 'what was looked for is still there on coming back');
  await press(page, 'Show all');
  await only(whole.length);
  await page.getByRole('switch').check({ force: true });
  assert.match(await only(whole.length + 2), /lowianum/, 'the slip, struck out, and its undoing');
  await page.getByRole('switch').uncheck({ force: true });
  await choose(page, 'Treatments');
  await told(page, 'Nothing in the book is like that.');
  await choose(page, 'Lots and counts');
  await only(1);
  await choose(page, 'Cool house');
  await told(page, 'Nothing in the book is like that.');
  await choose(page, 'Everything');
  assert.match(await only(1), /Place: Cool house/);
  await press(page, 'Show all');
  await eventually(page, async () => assert.deepEqual(await sentences(page), whole));
  assert.deepEqual(complaints, []);
});

phoneTest('a cut file, a shopping list and the book of another nursery are refused in words and change nothing', {}, async ({ page }) => {
  await startBook(page);
  await addPlace(page, 'The lath house');
  const text = await handOver(page);
  const before = await sentences(page);
  const stranger = await open();
  let foreign;
  try {
    await startBook(stranger.page, 'Over the Hill');
    foreign = await handOver(stranger.page);
  } finally {
    await close(stranger);
  }
  await follow(page, 'Hand over or take in');
  await chooseFile(page, text.slice(0, text.lastIndexOf('\n', text.length - 2)));
  await told(page, /ends early|damaged on its way/);
  await chooseFile(page, text.replace('lath', 'lute'));
  await told(page, /damaged on its way/);
  await chooseFile(page, 'milk\neggs\n', 'shopping.txt');
  await told(page, /not a book of this program/);
  await chooseFile(page, foreign);
  await told(page, /the book of another nursery.*Over the Hill/);
  await picture(page, 'book-another-nursery');
  assert.deepEqual(await axe(page), []);
  assert.equal(await page.getByRole('button', { name: 'Take it in' }).count(), 0);
  assert.deepEqual(await sentences(page), before);
});

phoneTest('a wrong count is corrected with both wordings kept, and an entry is withdrawn and restored', {}, async (phone) => {
  let { page } = phone;
  await startBook(page);
  await addPlace(page, 'Cool house');
  await addLot(page, 'Coelogyne cristata', 'Cool house');
  await toBook(page);
  await page.locator('.entry', { hasText: 'Coelogyne cristata' }).click();
  await title(page, 'One entry');
  await picture(page, 'entry');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Correct this');
  await title(page, 'Correct it');
  await tap(page, 'One more: Plants', 2);
  await tap(page, 'One more: Pots', 2);
  await page.getByLabel('Why').fill('counted again');
  await picture(page, 'entry-correct');
  assert.deepEqual(await axe(page), []);

  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'Correct it');
  await eventually(page, async () => assert.equal(await page.getByLabel('Why').inputValue(), 'counted again', 'a correction half typed outlives the battery'));
  await press(page, 'Keep the correction');
  await told(page, 'As it was first recorded');
  assert.match(await page.locator('p.out').innerText(), /: 1 pot,/);
  await told(page, /: 3 pots,/);

  // The correction rests on what it corrects.
  await press(page, 'Withdraw it');
  await press(page, 'Withdraw it with 1 later entry');
  await told(page, 'Restore it');
  await told(page, 'Withdrawn: a mistake');
  await room(page, 'Stock');
  await title(page, 'Stock');
  await eventually(page, async () => assert.equal(await page.locator('.lot-row').count(), 0, 'what is withdrawn no longer counts'));
  await toBook(page);
  await page.locator('.entry', { has: page.locator('.out') }).first().waitFor();
  await told(page, /^Coelogyne cristata .*: 1 pot, here already/);
  await picture(page, 'book-withdrawn');
  assert.deepEqual(await axe(page), []);
  await page.locator('.entry', { has: page.locator('.out'), hasText: 'here already' }).last().click();
  await press(page, 'Restore it');
  await page.getByRole('button', { name: 'Withdraw it' }).waitFor();
  await room(page, 'Stock');
  await page.locator('.lot-row').first().waitFor();
  await told(page, '3 pots');
});

phoneTest('an entry on which others rest is withdrawn together with them, or not at all', {}, async ({ page }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  await addLot(page, 'Coelogyne cristata', 'Cool house');
  await press(page, 'Open the lot');
  await follow(page, 'Seen here');
  await press(page, 'Outgrown its pot');
  await page.getByRole('heading', { name: 'Its year' }).waitFor();
  await toBook(page);
  await page.locator('.entry', { hasText: 'here already' }).click();
  await press(page, 'Withdraw it');
  await told(page, 'A later entry rests on this one.');
  await told(page, 'These rest on it');
  await picture(page, 'entry-rests');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Withdraw it with 1 later entry');
  await told(page, 'Withdrawn: a mistake');
  await room(page, 'Stock');
  await title(page, 'Stock');
  await eventually(page, async () => assert.equal(await page.locator('.lot-row').count(), 0));
});

phoneTest('what the edit of a protocol would move is told before it is kept', {}, async ({ page }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  await addLot(page, 'Coelogyne cristata', 'Cool house');
  await press(page, 'Open the lot');
  await follow(page, 'Seen here');
  await press(page, 'Scale');
  await title(page, 'Scale');
  await toShed(page, 'Protocols');
  await picture(page, 'protocols');
  assert.deepEqual(await axe(page), []);
  await follow(page, 'After something was found 1 of 1 step in use');
  await title(page, 'After something was found');
  await tap(page, 'One more: Days after', 2);
  await told(page, '1 open task would move.');
  await picture(page, 'protocol');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Keep these days');
  await told(page, /^Kept\./);
  await page.reload();
  await title(page, 'After something was found');
  await told(page, 'from day 7 to day 12');
  assert.equal(await page.getByText('would move').count(), 0);
});

phoneTest('a pot typed wrongly is told at the measure, and a mix has to make the whole', {}, async (phone) => {
  let { page } = phone;
  await startBook(page);
  await toShed(page, 'Pots');
  await page.getByLabel('What you call it').fill('tall 17');
  await choose(page, 'Square');
  await measure(page, 'Across the top').fill('12 cm');
  await measure(page, 'Across the base').fill('17');
  await measure(page, 'Height').fill('0,2 m');
  await press(page, 'Add this pot');
  await told(page, 'Add the unit: 17 cm, 170 mm.');
  await measure(page, 'Across the base').fill('170 mm');
  await press(page, 'Add this pot');
  await told(page, 'The base is wider than the top. Swap them.');
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, 'Pots');
  await eventually(page, async () => assert.equal(await measure(page, 'Across the base').inputValue(), '170 mm', 'nothing typed is lost'));
  await measure(page, 'Across the top').fill('17,5 cm');
  await told(page, '6.0 L to the brim');
  await picture(page, 'pots-new');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Add this pot');
  await page.locator('summary', { hasText: 'tall 17' }).waitFor();
  await eventually(page, async () => assert.equal(await page.getByLabel('What you call it').inputValue(), ''));

  await toShed(page, 'Mixes');
  await page.getByLabel('Name of the mix').fill('Bark and pumice');
  await page.getByText('What is in it, by volume').click();
  await page.locator('button.choose', { hasText: 'Medium bark' }).click();
  await tap(page, 'One less: Medium bark', 2);
  await press(page, 'Add this mix');
  await told(page, 'Together 90 %; 10 % missing.');
  await page.locator('button.choose', { hasText: 'Pumice' }).click();
  await told(page, 'Together 100 %.');
  await picture(page, 'mixes-new');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Add this mix');
  await page.locator('summary', { hasText: 'Bark and pumice' }).click();
  await told(page, '10 % pumice');
});

phoneTest('the poisons number, a house, a task and a treatment are in the book', {}, async ({ page }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  await follow(page, 'Cool house');
  await title(page, 'Cool house');
  await choose(page, 'Cool nights');
  await told(page, 'Changed.');
  await choose(page, 'Bright');
  await page.waitForTimeout(400);
  await picture(page, 'place');
  assert.deepEqual(await axe(page), []);
  await addLot(page, 'Coelogyne cristata', 'Cool house');
  await toShed(page, 'This phone');
  await page.getByLabel('Poisons number').fill('555 0134');
  await press(page, 'Keep this');
  await told(page, 'Changed.');
  await picture(page, 'phone');
  assert.deepEqual(await axe(page), []);

  await page.goto(`${page.url().split('#')[0]}#/round/task`);
  await title(page, 'A task');
  await page.getByLabel('What is to be done').fill('Clean the gutter');
  await choose(page, 'Every week');
  await choose(page, 'Cool house');
  await picture(page, 'new-task');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Add this task');
  await title(page, 'Round');
  await told(page, 'Clean the gutter');

  await room(page, 'Treat');
  await title(page, 'Treat');
  await told(page, 'The label is the law and beats this program.');
  await follow(page, 'Write down a treatment');
  await title(page, 'Write down a treatment');
  await press(page, 'Record this treatment');
  await told(page, 'Pick what was treated');
  await page.getByLabel('What was treated').fill('cristata');
  await page.locator('button.choose', { hasText: 'Coelogyne cristata' }).click();
  await page.getByLabel('Product').fill('As on the bottle');
  await choose(page, 'Insects');
  await choose(page, 'Bathed');
  for (let minute = 0; minute < 3; minute += 1) await press(page, 'One more: Minutes in it');
  await press(page, 'One more: Hours until re-entry');
  await picture(page, 'treat');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Record this treatment');
  await told(page, 'Re-entry after 1 hour, as the label said.');
  await page.getByText('On contact, and while it dries').click();
  await told(page, 'Poisons number: 555 0134');
  await toBook(page);
  await told(page, /Bathed with As on the bottle: Coelogyne cristata .*1 plant\./);
});

phoneTest('what two phones said differently is asked with both sides, and answered by one of them', {}, async ({ page }) => {
  await startBook(page);
  await addPlace(page, 'The house');
  const text = await handOver(page);
  const other = await open();
  let theirs;
  try {
    const second = other.page;
    await follow(second, 'From a file');
    await chooseFile(second, text);
    await press(second, 'Take it in');
    await title(second, 'Round');
    await joined(second);
    await toShed(second, 'Places');
    await follow(second, 'The house');
    await choose(second, 'Warm nights');
    await told(second, 'Changed.');
    theirs = await handOver(second);
  } finally {
    await close(other);
  }
  await toShed(page, 'Places');
  await follow(page, 'The house');
  await choose(page, 'Cool nights');
  await told(page, 'Changed.');
  await toBook(page);
  await follow(page, 'Hand over or take in');
  await chooseFile(page, theirs);
  await press(page, 'Take it in');
  await title(page, 'Round');
  await toBook(page);
  await follow(page, '1 question');
  await title(page, 'Questions');
  await told(page, 'Two phones said different things about the warmth of a house.');
  const sides = await page.locator('.card .entry').allInnerTexts();
  assert.equal(sides.length, 2);
  assert.ok(sides.some((side) => side.includes('cool nights')) && sides.some((side) => side.includes('warm nights')), String(sides));
  const before = sides.find((side) => side.includes('counts now'));
  await picture(page, 'questions');
  assert.deepEqual(await axe(page), []);
  await press(page, 'This one is right');
  await told(page, 'No questions. The book agrees with itself.');
  await toShed(page, 'Places');
  await follow(page, 'The house');
  const chosen = before.includes('cool nights') ? 'Warm nights' : 'Cool nights';
  await eventually(page, async () => assert.ok(await page.getByRole('radio', { name: chosen, exact: true }).isChecked(), `${chosen} is answered`));
});

/** From another phone: what it would bring is looked at, and taken in. */
async function takeIn(page, text) {
  await toBook(page);
  await follow(page, 'Hand over or take in');
  await chooseFile(page, text);
  await press(page, 'Take it in');
  await title(page, 'Round');
}

async function toQuestions(page) {
  await toBook(page);
  await page.getByRole('link', { name: /question/ }).click();
  await title(page, 'Questions');
}

phoneTest('a phone whose clock runs months ahead is asked about, not the others, and its times are put right', {}, async ({ page }) => {
  await startBook(page);
  for (const place of ['Cool house', 'Lath house', 'Warm house']) await addPlace(page, place);
  const text = await handOver(page);
  const ahead = () => {
    const Right = Date;
    const shift = 106 * 86_400_000;
    globalThis.Date = class extends Right {
      constructor(...given) {
        super(...(given.length ? given : [Right.now() + shift]));
      }

      static now() {
        return Right.now() + shift;
      }
    };
  };
  const other = await open({ init: ahead });
  let theirs;
  try {
    await follow(other.page, 'From a file');
    await chooseFile(other.page, text);
    await press(other.page, 'Take it in');
    await title(other.page, 'Round');
    await joined(other.page);
    theirs = await handOver(other.page);
  } finally {
    await close(other);
  }
  await takeIn(page, theirs);
  await addPlace(page, 'Seedling bench');
  await toQuestions(page);
  await told(page, /The clock of phone \w\d was about 106 days ahead/);
  await picture(page, 'questions-clock');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Take about 106 days off their times');
  await told(page, 'Their times are put right.');
  await told(page, 'No questions. The book agrees with itself.');
});

phoneTest('a phone copied with its book joins under a name of its own, and a code on two lots is given up by one', {}, async (phone, t) => {
  await startBook(phone.page);
  await addPlace(phone.page, 'Cool house');
  await close(phone);
  const folder = await mkdtemp(path.join(tmpdir(), 'velamen-copied-'));
  t.after(() => rm(folder, { recursive: true, force: true }));
  // The sign that a browser has it open is not copied.
  await cp(phone.profile, folder, { recursive: true, filter: (from) => !path.basename(from).startsWith('Singleton') });
  const again = await reopen(phone);
  const copy = await open({ profile: folder });
  try {
    await addLot(again.page, 'Cymbidium lowianum', 'Cool house');
    await addLot(copy.page, 'Vanda coerulea', 'Cool house');
    await takeIn(again.page, await handOver(copy.page));
    await takeIn(copy.page, await handOver(again.page));
    const { page } = again;
    await toQuestions(page);
    await told(page, /A phone was copied together with its book/);
    await told(page, /The code \S+ is on 2 lots/);
    await picture(page, 'questions-copied');
    assert.deepEqual(await axe(page), []);
    await page.getByRole('button', { name: /^Another code for Vanda coerulea/ }).click();
    await told(page, /Write \S+ on its label\./);
    await page.getByText(/is on 2 lots/).first().waitFor({ state: 'detached' });
    await room(page, 'Stock');
    await page.locator('.lot-row').nth(1).waitFor();
    const codes = await page.locator('.stake-code').allInnerTexts();
    assert.equal(new Set(codes).size, 2, String(codes));
  } finally {
    await close(copy);
  }
});

phoneTest('a phone the book does not know is offered to join it, and records nothing before', {}, async ({ page }) => {
  await startBook(page);
  await page.evaluate(() => new Promise((resolve, reject) => {
    const opening = indexedDB.open('velamen');
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      const writing = opening.result.transaction('meta', 'readwrite');
      writing.objectStore('meta').put('00000000000zz', 'dev');
      writing.oncomplete = () => { opening.result.close(); resolve(); };
      writing.onabort = () => reject(writing.error);
    };
  }));
  await page.reload();
  await toShed(page, 'Places');
  await page.getByLabel('Name of the place').fill('Cool house');
  await press(page, 'Add this place');
  await told(page, /This phone has not joined the book yet/);
  await toShed(page, 'This phone');
  await told(page, /has not joined the book under a name of its own/);
  await picture(page, 'join-again');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Join the book');
  await told(page, /Codes from this phone begin with/);
  await page.getByRole('button', { name: 'Join the book' }).waitFor({ state: 'detached' });
  await addPlace(page, 'Cool house');
});

phoneTest('a pot and a mix of the shelf are changed, half-typed changes outlive a dead battery, and a step gets light days of its own', {}, async (phone) => {
  let { page } = phone;
  await startBook(page);
  await toShed(page, 'Pots');
  const pot = page.locator('details.more-of-it').first();
  const called = (await pot.locator('summary bdi').first().innerText()).trim();
  await pot.locator('summary').first().click();
  await pot.getByRole('link', { name: 'Change it' }).click();
  await title(page, called);
  await eventually(page, async () => {
    assert.match(await measure(page, 'Across the top').inputValue(), /^[\d.]+ mm$/, 'as it stands on the shelf');
    assert.ok(await page.getByRole('button', { name: 'Keep this change' }).isDisabled(), 'nothing is changed yet');
  });
  await measure(page, 'What you call it').fill('Measured again');
  await measure(page, 'Height').fill('15,3 cm');
  await kill(phone);
  phone = await reopen(phone);
  ({ page } = phone);
  await title(page, called);
  await eventually(page, async () => assert.equal(await measure(page, 'Height').inputValue(), '15,3 cm'));
  await picture(page, 'pot-change');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Keep this change');
  await title(page, 'Pots');
  await page.locator('summary', { hasText: 'Measured again' }).getByText('/ 153 mm').waitFor();
  const names = (await page.locator('summary bdi').allInnerTexts()).map((name) => name.trim());
  assert.ok(!names.includes(called), `changed, not added: ${names}`);

  await toShed(page, 'Mixes');
  const mix = page.locator('details.more-of-it').last();
  await mix.locator('summary').click();
  await mix.getByRole('link', { name: 'Change it' }).click();
  await page.getByLabel('Name of the mix').fill('For the lath house');
  await press(page, 'Keep this change');
  await title(page, 'Mixes');
  await page.locator('summary', { hasText: 'For the lath house' }).waitFor();

  await toShed(page, 'Protocols');
  await page.getByRole('link', { name: /After dividing/ }).click();
  await title(page, 'After dividing');
  const step = page.locator('details.more-of-it').first();
  await step.locator('summary').click();
  await choose(step, 'Days of its own');
  const days = step.getByRole('group', { name: 'Days after, tough kinds', exact: true });
  const before = Number(await days.locator('output').innerText());
  await press(page, 'One more: Days after, tough kinds');
  await page.waitForFunction((more) => [...document.querySelectorAll('output')].some((one) => one.textContent === more), String(before + 1));
  await picture(page, 'protocol-tough');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Keep these days');
  await told(page, /Kept\./);
  await page.reload();
  await title(page, 'After dividing');
  await page.locator('details.more-of-it').first().locator('summary').click();
  await eventually(page, async () => {
    assert.equal(Number(await days.locator('output').innerText()), before + 1);
    assert.ok(await page.locator('details.more-of-it').first().getByRole('radio', { name: 'Days of its own' }).isChecked());
  });
});

// A year of a small nursery played through the screens alone, from the first place to the stock a year later. What comes
// in, goes out, dies and becomes of what was cut is counted by this test beside it; at the end stock, losses, sales,
// divisions and forecast must agree with that count. The phone's clock stands at the day of each chapter, so no hour and
// no date of the machine matters.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { choose, eventually, follow, go, pick, press, room, tap, title } from './hand.mjs';
import { home, phoneTest, picture } from './harness.mjs';

const told = (page, words) => page.getByText(words).first().waitFor();
const noPrinter = () => {
  window.printed = 0;
  window.print = () => { window.printed += 1; };
};

/** What a grower with a pencil would know: plants by name, what died of what, what was sold. */
const pencil = { plants: new Map(), lost: new Map(), sold: 0, pieces: 0 };
const sum = () => [...pencil.plants.values()].reduce((all, plants) => all + plants, 0);
const write = (name, by) => pencil.plants.set(name, (pencil.plants.get(name) ?? 0) + by);

/** A morning of this day, at this hour: the program is opened anew, as in the morning. */
async function morning(page, day, hour = '08:30') {
  await page.clock.setSystemTime(new Date(`${day}T${hour}:00Z`));
  await page.goto(`${home}#/`);
  await page.reload();
  await title(page, 'Round');
}

async function addPlace(page, name) {
  await go(page, '#/shed/places');
  await title(page, 'Places');
  await page.getByLabel('Name of the place').fill(name);
  await press(page, 'Add this place');
  await page.getByRole('link', { name, exact: true }).waitFor();
}

async function openLot(page, name) {
  await room(page, 'Stock');
  await title(page, 'Stock');
  await page.getByLabel('Find a lot').fill(name);
  await page.locator('.lot-row', { hasText: name }).first().click();
  await page.getByRole('heading', { name: 'Its year' }).waitFor();
}

async function change(page, what) {
  await press(page, 'Change');
  await press(page, what);
}

async function stockSays(page) {
  await room(page, 'Stock');
  await title(page, 'Stock');
  await eventually(page, async () => {
    const said = await page.locator('.screen-title p').innerText();
    assert.match(said, new RegExp(`, ${sum()} plants$`), `${said} against ${sum()} by the pencil`);
  });
}

async function readHouse(page, min, max) {
  await go(page, '#/round/climate');
  await title(page, 'Minimum and maximum');
  await page.locator('.reading').first().click();
  const type = async (keys) => {
    for (const key of keys) await page.locator('.pad-keys').getByRole('button', { name: key, exact: true }).click();
  };
  await type(min);
  await press(page, 'Maximum');
  await type(max);
  await page.keyboard.press('Escape');
  await press(page, 'Keep the readings');
  await told(page, 'Recorded: minimum and maximum');
}

async function toWater(page) {
  await go(page, '#/round/water');
  await title(page, 'Water and feed');
}

/** The list as a spreadsheet gets it: rows by the names of their columns. */
async function listed(page, which) {
  await go(page, '#/stock/lists');
  await title(page, 'Lists');
  await choose(page, which);
  await page.waitForTimeout(400);
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save as a table')]);
  const [head, ...rows] = (await readFile(await download.path(), 'utf8')).trim().split('\r\n').map((line) => line.split(','));
  return rows.map((cells) => Object.fromEntries(head.map((name, at) => [name, cells[at]])));
}

const chapters = {
  async 'places and the first lots, one by one and from a list'(page) {
    await page.getByLabel('Name of the nursery').fill('Under the Ash');
    await press(page, 'Start my book');
    await title(page, 'Round');
    for (const place of ['Cool house', 'Rain bench', 'Far corner']) await addPlace(page, place);
    await room(page, 'Stock');
    await page.getByRole('link', { name: 'Add a lot' }).first().click();
    await page.getByLabel('Name of the plant').fill('Cymbidium lowianum');
    await tap(page, 'One more: Plants', 2);
    await choose(page, 'Cool house');
    await choose(page, 'To flower');
    await press(page, 'Add this lot');
    await title(page, 'In the book');
    write('Cymbidium lowianum', 3);
    await go(page, '#/stock/list');
    await title(page, 'A list you have');
    const rows = ['Plant;How many;Bench;Last repotted;Size', 'Zygopetalum maculatum;12;Rain bench;2026;Starters', 'Coelogyne cristata;6;Cool house;2025;Flowering size', 'Dendrobium kingianum;8;Rain bench;2026;Flowering size'];
    await page.locator('input[type=file]').setInputFiles({ name: 'stock.csv', mimeType: 'text/csv', buffer: Buffer.from(rows.join('\r\n')) });
    await press(page, 'Take in 3 lots');
    await told(page, 'Recorded: 3 lots from the list');
    write('Zygopetalum maculatum', 12);
    write('Coelogyne cristata', 6);
    write('Dendrobium kingianum', 8);
    await stockSays(page);
  },

  async 'a week of the house: the thermometer and the hose'(page) {
    await readHouse(page, ['9'], ['2', '1']);
    await toWater(page);
    for (const place of ['Cool house', 'Rain bench']) {
      await press(page, `All watered: ${place}`);
      await told(page, `Watered: ${place}.`);
    }
  },

  async 'the spring repot, with spots and a bath'(page) {
    await openLot(page, 'lowianum');
    await follow(page, 'Seen here');
    await press(page, 'Outgrown its pot');
    await page.getByRole('heading', { name: 'Its year' }).waitFor();
    await room(page, 'Repot');
    await title(page, 'Repot');
    await press(page, 'Clean, new blade each clump');
    await toBench(page, 'lowianum');
    await tap(page, 'One more: To flower', 3);
    await tap(page, 'One more: Starters', 5);
    await tap(page, 'One more: Back-bulbs', 2);
    await tap(page, 'One more: Thrown away', 1);
    await follow(page, 'Seen here');
    await page.getByRole('button', { name: 'Black spots' }).first().click();
    await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
    await press(page, 'To the pots');
    await press(page, 'A bath first');
    await title(page, 'Make a bath');
    await page.getByLabel('Name on the label').fill('Copper powder');
    await page.getByLabel("The label's rate").fill('12.5 mL per 10 L');
    await press(page, 'Put it on the shelf');
    await pick(page, 'Yes, dipping');
    await page.locator('.choice', { hasText: 'Fungus' }).click();
    await tap(page, 'One more: Minutes in it', 10);
    await tap(page, 'One more: Hours until bare hands', 4);
    await page.getByLabel('Litres', { exact: true }).last().fill('20');
    await page.locator('.amount', { hasText: '25' }).waitFor();
    await press(page, 'Safety, then mix');
    await press(page, 'All so: mixed');
    await pick(page, 'at once');
    await press(page, 'Last piece goes in');
    await title(page, 'In the tub');
    // Ten minutes and a half by the phone's clock.
    await page.clock.setSystemTime(new Date('2027-03-15T08:40:30Z'));
    await told(page, /Time is up|Time was up/);
    await press(page, 'Out now');
    await told(page, '1 batch out of it so far');
    await page.getByRole('link', { name: 'To the pots', exact: true }).first().click();
    await intoPots(page, ['To flower · 3 pieces', 'Starters · 5 pieces', 'Back-bulbs · 2 pieces']);
    await title(page, 'Labels');
    await press(page, 'Print these labels');
    await title(page, 'Labels');
    await page.locator('.print-preview .print-code').waitFor();
    const labels = page.getByRole('button', { name: /^Print \d+ labels$/ });
    await page.waitForTimeout(400);
    await labels.click();
    await told(page, /labels handed to the printer/);
    assert.equal(await page.evaluate(() => window.printed), 1);
    await room(page, 'Repot');
    await page.getByRole('link', { name: 'Go on' }).or(page.getByRole('link', { name: 'Pot them' })).first().click();
    await title(page, 'Labels');
    await press(page, 'Done');
    await title(page, 'Repot');
    write('Cymbidium lowianum', -3 + 10);
    await room(page, 'Treat');
    await page.locator('a.pick', { hasText: 'Copper powder' }).click();
    await press(page, 'Empty the tub');
    await press(page, 'It is empty');
    await title(page, 'Treat');
    await stockSays(page);
    await picture(page, 'year-spring');
  },

  async 'the emptied pots through the wash'(page) {
    await washed(page, '3 pots', '2027-03-22T09:02:00Z');
  },

  async 'first water for what was potted, and the rest of the work of the day'(page) {
    const rows = page.locator('.work-do');
    await rows.first().waitFor();
    await picture(page, 'year-april');
    for (let left = await rows.count(); left > 0;) {
      await page.waitForTimeout(400);
      await rows.first().click();
      const sheet = page.locator('dialog[open]');
      await page.waitForFunction((before) => document.querySelectorAll('.work-do').length < before || document.querySelector('dialog[open]'), left);
      // Some ask how it looks.
      if (await sheet.count()) await sheet.locator('.action').nth(1).click();
      await page.waitForFunction((before) => document.querySelectorAll('.work-do').length < before, left);
      left = await rows.count();
    }
    // What is left wants the bench.
    assert.equal(await rows.count(), 0);
  },

  async 'thrips on a bench'(page) {
    await openLot(page, 'Zygopetalum');
    await follow(page, 'Seen here');
    await press(page, 'Thrips');
    await title(page, 'Thrips');
    await page.waitForTimeout(400);
    await page.getByRole('button', { name: /^Look again about \d/ }).click();
    await told(page, 'Noted for the Round.');
  },

  async 'streaks: kept apart, tested'(page) {
    await openLot(page, 'kingianum');
    await change(page, 'Split off');
    await choose(page, 'Ill');
    await press(page, 'Split them off');
    await page.getByRole('heading', { name: 'Split off this lot' }).waitFor();
    await follow(page, 'Seen here');
    await press(page, 'Streaks or mosaic');
    await title(page, 'Streaks or mosaic');
    await press(page, 'Quarantine until two tests');
    await page.getByRole('button', { name: 'Quarantine until two tests' }).waitFor({ state: 'detached' });
    await follow(page, 'Write down a test');
    await title(page, 'A test for viruses');
    await choose(page, 'Detected', 'Cymbidium mosaic');
    await choose(page, 'Not detected', 'Odontoglossum ringspot');
    await press(page, 'Record the test');
    await told(page, /tested, DETECTED on/);
    await stockSays(page);
    await told(page, /In quarantine/);
    await openLot(page, 'kingianum');
  },

  async 'a feed for the growing season'(page) {
    await toWater(page);
    await follow(page, 'Feed this bench');
    await title(page, 'Feed');
    await follow(page, 'Another feed');
    await page.getByLabel('What you call it').fill('Growing feed');
    await page.getByLabel('The three figures').fill('20-10-20');
    await page.getByLabel('Nitrogen, N').fill('20');
    await press(page, 'Add the feed');
    await title(page, 'Feed');
    await choose(page, 'Growing feed');
    await page.locator('.amount').first().waitFor();
    await press(page, 'Fed');
    await title(page, 'Water and feed');
    await told(page, /^Fed: /);
  },

  async 'the ill one is thrown away, and two rot in the heat'(page) {
    await room(page, 'Stock');
    await title(page, 'Stock');
    await page.getByLabel('Find a lot').fill('kingianum');
    await page.locator('.lot-row', { hasText: 'In quarantine' }).first().click();
    await lost(page, 'Dendrobium kingianum', 'Virus', 1);
    await openLot(page, 'Coelogyne');
    await lost(page, 'Coelogyne cristata', 'Rot', 2);
    await stockSays(page);
  },

  async 'autumn: cold nights, one plant divided, and its pot washed'(page) {
    await readHouse(page, ['4'], ['1', '7']);
    await room(page, 'Repot');
    await title(page, 'Repot');
    await press(page, 'Clean, new blade each clump');
    await toBench(page, 'lowianum', 1);
    await tap(page, 'One more: Starters', 2);
    await potted(page, ['Starters · 2 pieces']);
    write('Cymbidium lowianum', -1 + 2);
    await washed(page, '1 pot', '2027-09-20T09:02:00Z');
    await stockSays(page);
  },

  async 'a clump into the pot that was washed'(page) {
    await room(page, 'Repot');
    await title(page, 'Repot');
    await press(page, 'Clean, new blade each clump');
    await toBench(page, 'Coelogyne', 1);
    await tap(page, 'One more: To flower', 1);
    await potted(page, ['To flower · 1 piece']);
    write('Coelogyne cristata', 0);
    await go(page, '#/shed/wash');
    await title(page, 'The wash');
    await page.getByRole('button', { name: /^Dirty, 1 pot: / }).waitFor();
    assert.equal(await page.getByRole('button', { name: /^Dry and clean, 1 pot: / }).count(), 0, 'it went into use');
    await stockSays(page);
  },

  async 'spikes, and the first sales'(page) {
    await openLot(page, 'lowianum');
    await follow(page, 'Seen here');
    await press(page, 'Spike seen');
    await page.getByRole('heading', { name: 'Its year' }).waitFor();
    await openLot(page, 'Zygopetalum');
    await sell(page, 'Zygopetalum maculatum', 4, 'Market stall');
    await openLot(page, 'kingianum');
    await sell(page, 'Dendrobium kingianum', 3, 'A friend');
    await stockSays(page);
  },

  async 'a year later: stock, divisions, losses, sales and the forecast agree with the pencil'(page) {
    await stockSays(page);
    const stock = await listed(page, 'Stock');
    const byName = new Map();
    for (const row of stock) byName.set(row.name, (byName.get(row.name) ?? 0) + Number(row.plants));
    assert.deepEqual([...byName].sort(), [...pencil.plants].sort());
    const losses = await listed(page, 'Losses');
    const dead = new Map();
    for (const row of losses) dead.set(row.cause, (dead.get(row.cause) ?? 0) + Number(row.plants));
    assert.deepEqual([...dead].sort(), [...pencil.lost].sort());
    const divisions = await listed(page, 'Divisions');
    assert.equal(divisions.reduce((all, row) => all + Number(row.plants ?? row.potted ?? 0), 0), pencil.pieces, JSON.stringify(divisions[0]));

    await room(page, 'Stock');
    await follow(page, 'What is to come');
    await title(page, 'What is to come');
    const drawings = page.locator('figure.drawing');
    await drawings.first().waitFor();
    const said = await drawings.evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')));
    const sale = said.find((words) => words.startsWith('May be of a size to sell'));
    const months = [...sale.matchAll(/ (\d+)(?: \((\d+) to (\d+)\))?(?=[,.])/g)].map(([, middle, , high]) => Number(high ?? middle));
    assert.ok(months.length > 2, sale);
    assert.ok(Math.max(...months) <= sum(), `never more to sell than the ${sum()} there are: ${sale}`);
    assert.ok(Math.max(...months) > 0, sale);
    await picture(page, 'year-forecast');
    const page_ = await page.locator('main').innerText();
    assert.match(page_, /2 plants, 1 time/);
    await room(page, 'Book');
    await told(page, /4 pots sold|sold/);
    await go(page, '#/book/questions');
    await title(page, 'Questions');
    await told(page, 'The book agrees with itself.');
    assert.equal(pencil.sold, 7);
  },
};

/** A lot comes to the bench, all of it or so many of its plants. */
async function toBench(page, name, plants) {
  await openLot(page, name);
  await change(page, 'To the bench, to divide');
  await title(page, 'A clump to the bench');
  if (plants) {
    const at = page.getByRole('group', { name: 'Plants to the bench', exact: true }).locator('output');
    for (let now = Number(await at.innerText()); now > plants; now -= 1) await press(page, 'One less: Plants to the bench');
    await eventually(page, async () => assert.equal(await at.innerText(), String(plants)));
  }
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
}

/** Every class into its pots, as the bench proposes. */
async function intoPots(page, turns) {
  for (const words of turns) {
    await page.getByText(words, { exact: true }).waitFor();
    await press(page, 'Potted');
  }
  for (const words of turns) pencil.pieces += Number(words.match(/(\d+) piece/)[1]);
}

async function potted(page, turns) {
  await press(page, 'To the pots');
  await intoPots(page, turns);
  await title(page, 'Labels');
  await press(page, 'Done');
  await title(page, 'Repot');
}

/** Dirty pots through water and disinfectant until they are clean; half an hour goes by. */
async function washed(page, pots, out) {
  await go(page, '#/shed/wash');
  await title(page, 'The wash');
  const pile = async (name) => {
    await page.waitForTimeout(400);
    await page.getByRole('button', { name }).first().click();
  };
  await pile(new RegExp(`^Dirty, ${pots}: `));
  await press(page, `Washed: ${pots}`);
  await page.getByRole('button', { name: new RegExp(`^Washed, ${pots}: `) }).waitFor();
  await press(page, 'Disinfect');
  await title(page, 'Disinfect');
  await page.getByLabel('Strength on the bottle').fill('5.25');
  await page.getByLabel('Litres', { exact: true }).fill('10');
  await press(page, 'Made');
  await title(page, 'Baths for cleaning');
  await press(page, 'Last one goes in');
  await title(page, 'In the disinfectant');
  await page.clock.setSystemTime(new Date(out));
  await told(page, /Time is up|Time was up/);
  await press(page, 'Out, rinse');
  await title(page, 'The wash');
  await pile(new RegExp(`^Disinfected, drying, ${pots}: `));
  await press(page, `Dry and clean: ${pots}`);
  await page.getByRole('button', { name: new RegExp(`^Dry and clean, ${pots}: `) }).waitFor();
  // The mixture does not keep until the next time.
  await page.locator('.lot-row', { hasText: 'Chlorine' }).first().click();
  await title(page, 'Baths for cleaning');
  await press(page, 'Throw it out');
  await title(page, 'The wash');
}

async function lost(page, name, cause, plants) {
  await change(page, 'Lost');
  const what = page.locator('dialog[open]');
  for (let count = 1; count < plants; count += 1) await what.getByRole('button', { name: /^One more: Plants/ }).click();
  await choose(page, cause);
  await press(page, 'Record the loss');
  await what.waitFor({ state: 'detached' });
  write(name, -plants);
  const wire = cause.toLowerCase();
  pencil.lost.set(wire, (pencil.lost.get(wire) ?? 0) + plants);
}

async function sell(page, name, plants, to) {
  await change(page, 'Sold');
  for (let count = 1; count < plants; count += 1) await press(page, 'One more: Plants sold');
  await page.getByLabel('To whom').fill(to);
  await press(page, 'Record the sale');
  await page.locator('dialog[open]').waitFor({ state: 'detached' });
  write(name, -plants);
  pencil.sold += plants;
}

const days = ['2027-03-01', '2027-03-08', '2027-03-15', '2027-03-22', '2027-04-05', '2027-04-20', '2027-05-05', '2027-06-10', '2027-07-10', '2027-09-20', '2027-10-04', '2027-11-15', '2028-02-28'];

phoneTest('a year of a nursery, from its first place to the stock a year later', { url: null, init: noPrinter, scale: 1 }, async ({ page, complaints }, t) => {
  await page.clock.setSystemTime(new Date('2027-03-01T08:30:00Z'));
  await page.goto(home);
  const names = Object.keys(chapters);
  assert.equal(names.length, days.length);
  for (const [at, name] of names.entries()) {
    const from = Date.now();
    if (at > 0) await morning(page, days[at]);
    await chapters[name](page);
    t.diagnostic(`${days[at]} ${name}: ${((Date.now() - from) / 1000).toFixed(1)} s, ${sum()} plants`);
  }
  assert.deepEqual(complaints, []);
});

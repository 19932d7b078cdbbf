// The battery pulled while many lines are being written or put together, and what was kept for the first screen: nothing
// recorded is lost, nothing is half there, and what is shown early is what the book says.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { setTimeout as pause } from 'node:timers/promises';
import { eventually, press, title, follow } from './hand.mjs';
import { home, kill, phoneTest, reopen } from './harness.mjs';

const ENTRIES = 3_000;
/** How often the battery is pulled, in each of the two; more with `VELAMEN_KILLS=200`, which takes the better part of an hour. */
const KILLS = Number(process.env.VELAMEN_KILLS ?? 0);
const ROUNDS = KILLS || 10;
const DEV = '0000000000042';
const START_MS = 1_780_000_000_000;

const sha256 = (text) => createHash('sha256').update(text).digest();

/** A book of tasks, a line each, the first two late for ever; as lines and as the text of a file. */
function bookOfTasks(count) {
  const lines = [];
  let prev = 0;
  const add = (about, events) => {
    const seq = lines.length + 1;
    const at = START_MS + seq * 60_000;
    const line = JSON.stringify({
      dev: DEV, seq, prev, order: [at, 0], at_ms: at, off_min: 0, on: '2026-05-28', about, needs: 1, events,
    });
    prev = sha256(line).readUInt32BE(0);
    lines.push(line);
  };
  add(['book', `d${DEV}`], [
    { book_opened: { book: DEV, nursery: 'Under the Elm', hemisphere: 'north' } },
    { phone_joined: { dev: DEV, prefix: 'K2' } },
  ]);
  while (lines.length < count) {
    const task = `${DEV}-${lines.length + 1}-0`;
    const due_on = lines.length <= 2 ? '2026-06-01' : '2036-01-01';
    add([`n${task}`], [{ task_noted: { task, text: `label ${lines.length}`, due_on } }]);
  }
  const head = {
    velamen_book: 1, book: DEV, nursery: 'Under the Elm', vocabulary: 1, rules: 2, by: DEV, made_ms: START_MS,
    entries: lines.length, heads: { [DEV]: [lines.length, prev] },
  };
  const text = [JSON.stringify(head)];
  for (let block = 0; block * 256 < lines.length; block += 1) {
    const some = lines.slice(block * 256, (block + 1) * 256);
    text.push(...some, JSON.stringify({ block, sha256: sha256(`${some.join('\n')}\n`).toString('hex') }));
  }
  text.push(JSON.stringify({ end: lines.length, sha256: sha256(`${lines.join('\n')}\n`).toString('hex') }), '');
  return { lines, file: text.join('\n') };
}

/** Lines as they lie in the database, rows and segments, without the program: `{ rows, segments }`. */
const stored = (page) => page.evaluate(async () => {
  const asked = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const database = await asked(indexedDB.open('velamen'));
  const transaction = database.transaction(['entries', 'segments']);
  const [rows, segments] = await Promise.all(['entries', 'segments'].map((name) => asked(transaction.objectStore(name).getAll())));
  database.close();
  return { rows: rows.map((row) => row.line), segments: segments.flatMap((row) => new TextDecoder().decode(row.bytes).trimEnd().split('\n')) };
});

/** Lays every line out as a row of its own again, as taps leave them. */
const layOut = (page) => page.evaluate(async () => {
  const asked = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const database = await asked(indexedDB.open('velamen'));
  const transaction = database.transaction(['entries', 'segments', 'meta'], 'readwrite');
  const entries = transaction.objectStore('entries');
  const segments = await asked(transaction.objectStore('segments').getAll());
  const mark = await asked(transaction.objectStore('meta').get('storage.sealed'));
  const devs = new Map((mark ?? '').trim().split('\n').map((run) => [run.split(' ')[0], run]));
  for (const segment of segments) {
    new TextDecoder().decode(segment.bytes).trimEnd().split('\n').forEach((line, at) => {
      const { dev, seq } = JSON.parse(line);
      const known = [...devs.keys()].find((name) => BigInt(`0x${name}`).toString() === readDev(dev));
      entries.put({ arrival: segment.first + at, dev: known, seq, line });
    });
  }
  transaction.objectStore('segments').clear();
  transaction.objectStore('meta').delete('storage.sealed');
  await new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error);
  });
  database.close();

  function readDev(text) {
    let value = 0n;
    for (const letter of text) value = value * 32n + BigInt('0123456789abcdefghjkmnpqrstvwxyz'.indexOf(letter));
    return value.toString();
  }
});

/** The Round says what is late: the first two tasks. A battery pulled right after the import may have left another screen. */
async function roundIsRight(page) {
  await page.goto(new URL('#/', home).href);
  await title(page, 'Round');
  await eventually(page, async () => assert.deepEqual(await page.locator('.work-what').allInnerTexts(), ['label 1', 'label 2']));
}

/** A page of the same origin that holds no program: the database can be looked at in peace. */
async function still(phone) {
  await phone.page.goto(new URL('manifest.webmanifest', home).href);
  return phone.page;
}

phoneTest('a file taken in while the battery is pulled is there whole or not at all', { url: null }, async (phone, t) => {
  const { lines, file } = bookOfTasks(ENTRIES);
  let there = 0;
  let here = phone;
  const came = { whole: 0, 'not at all': 0 };
  for (let [pulled, round] = [0, 0]; there === 0 || pulled < KILLS; [pulled, round] = [pulled + 1, round + 1]) {
    if (there) {
      // It came to an end: a new phone, and from the first moment again.
      [there, round] = [0, 0];
      await (await still(here)).evaluate(async () => {
        for (const { name } of await indexedDB.databases()) {
          await new Promise((resolve, reject) => {
            const asked = indexedDB.deleteDatabase(name);
            asked.onsuccess = resolve;
            asked.onerror = () => reject(asked.error);
          });
        }
      });
    }
    await here.page.goto(home);
    await follow(here.page, 'From a file');
    await here.page.locator('input[type=file]').setInputFiles({ name: 'book.txt', mimeType: 'text/plain', buffer: Buffer.from(file) });
    await here.page.getByText(/entries new/).waitFor();
    await here.page.waitForTimeout(400);
    const pressed = here.page.getByRole('button', { name: 'Take it in', exact: true }).click({ noWaitAfter: true }).catch(() => {});
    // Later every time, and by more, so that it comes to an end on the slowest machine too.
    await pause(Math.random() * 40 + round * round * 15);
    await kill(here, { atOnce: true });
    await pressed;
    here = await reopen(here, { url: null });
    const found = await stored(await still(here)).catch(() => ({ rows: [], segments: [] }));
    const of = [...found.segments, ...found.rows].filter((line) => line.includes(`"dev":"${DEV}"`));
    assert.ok(of.length === 0 || of.length === lines.length, `${of.length} of ${lines.length} lines`);
    there = of.length;
    came[there ? 'whole' : 'not at all'] += 1;
    if (there) {
      assert.deepEqual(of, lines);
      await roundIsRight(here.page);
    }
  }
  t.diagnostic(`pulled while a file came in, and it was there: ${JSON.stringify(came)}`);
});

phoneTest('lines put together while the battery is pulled are each there once, in order', { url: null }, async (phone, t) => {
  const { lines, file } = bookOfTasks(ENTRIES);
  let here = phone;
  await here.page.goto(home);
  await follow(here.page, 'From a file');
  await here.page.locator('input[type=file]').setInputFiles({ name: 'book.txt', mimeType: 'text/plain', buffer: Buffer.from(file) });
  await press(here.page, 'Take it in');
  await title(here.page, 'Round');
  await roundIsRight(here.page);
  const together = { 'not begun': 0, some: 0, all: 0 };
  for (let round = 0; round < ROUNDS; round += 1) {
    let page = await still(here);
    await layOut(page);
    const before = await stored(page);
    assert.equal(before.segments.length, 0);
    await page.goto(home, { waitUntil: 'commit' });
    await pause(Math.random() * 2_500);
    await kill(here, { atOnce: true });
    here = await reopen(here, { url: null });
    page = await still(here);
    const after = await stored(page);
    const all = [...after.segments, ...after.rows];
    assert.deepEqual(all.slice(0, lines.length), lines);
    assert.equal(new Set(all).size, all.length, 'no line twice');
    assert.ok(all.length >= before.rows.length, 'no line lost');
    together[after.segments.length === 0 ? 'not begun' : after.rows.length > 0 ? 'some' : 'all'] += 1;
    await roundIsRight(page);
  }
  t.diagnostic(`pulled while lines were put together, and so many were: ${JSON.stringify(together)}`);
  // Left in peace it puts them together, and the next start shows what was kept.
  await layOut(await still(here));
  await roundIsRight(here.page);
  let found = { segments: [] };
  while (found.segments.length === 0) {
    await pause(200);
    found = await stored(here.page);
  }
  assert.deepEqual([...found.segments, ...found.rows].slice(0, lines.length), lines);
});

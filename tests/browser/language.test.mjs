// The program in another language: as the phone speaks, or as chosen; whole, kept for a day without a network, and
// nothing of the book changed by it.
import assert from 'node:assert/strict';
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { eventually, follow, go, press, room, startBook, title, toTheEnd } from './hand.mjs';
import { axe, phoneTest, picture, serve } from './harness.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));
const book = fileURLToPath(new URL('../golden/book-1.txt', import.meta.url));

/** A host that can be stopped. */
async function aHost(t) {
  const dist = await mkdtemp(path.join(tmpdir(), 'velamen-dist-'));
  await cp(path.join(root, 'dist'), dist, { recursive: true });
  const host = await serve({ dist });
  t.after(async () => {
    await host.stop();
    await rm(dist, { recursive: true, force: true });
  });
  return host;
}

/** The page starts again at the tap, so nothing is asked of it afterwards. */
const speak = (page, name) => page.getByRole('group', { name: /^(Language|Idioma)$/ }).getByRole('radio', { name, exact: true }).click({ force: true });

const spoken = (page) => page.evaluate(() => document.documentElement.lang);
const loaded = (page) => page.evaluate(() => [...document.querySelectorAll('link[rel=preload]')].map((link) => /velamen-(\w\w)-/.exec(link.href)?.[1]));
const answers = (page) => page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');

phoneTest('a phone that speaks Spanish starts in Spanish, and goes on without a network', { url: null, locale: 'es-ES' }, async ({ page, complaints }, t) => {
  const host = await aHost(t);
  await page.goto(host.url);
  await page.getByLabel('Nombre del vivero').fill('Bajo el fresno');
  assert.equal(await spoken(page), 'es');
  assert.deepEqual(new Set(await loaded(page)), new Set(['es']), 'only the words of one language are loaded');
  await picture(page, 'start-spanish');
  assert.deepEqual(await axe(page), []);
  await press(page, 'Empezar mi libro');
  await title(page, 'Ronda');
  await go(page, '#/shed/phone');
  await page.getByText('Guardado en este teléfono: se abre sin conexión.').waitFor();
  await picture(page, 'phone-spanish');
  assert.deepEqual(complaints, []);

  await host.stop();
  await page.reload();
  await title(page, 'Este teléfono');
  // What every build keeps is there too.
  await speak(page, 'English');
  await title(page, 'This phone');
  await speak(page, 'As the phone');
  await title(page, 'Este teléfono');
});

phoneTest('the example of a phone that speaks Spanish is in Spanish', { locale: 'es-ES' }, async ({ page, complaints }) => {
  await press(page, 'Mirar un ejemplo');
  await title(page, 'Ronda');
  await page.getByText('Baño para las macetas con manchas en las hojas').first().waitFor();
  await picture(page, 'example-spanish');
  await go(page, '#/shed/places');
  for (const place of ['Invernadero fresco, bancada izquierda', 'Bancada a la lluvia', 'Aparte, junto a la puerta']) {
    await page.getByText(place).first().waitFor();
  }
  assert.doesNotMatch(await page.locator('main').innerText(), /house|bench|shelf|door/);
  await go(page, '#/shed/products');
  await page.getByText('Jabón potásico, de ejemplo').first().waitFor();
  assert.doesNotMatch(await page.locator('main').innerText(), /powder|soap|liquid|Example/);
  await picture(page, 'example-products-spanish');
  assert.deepEqual(complaints, []);
});

phoneTest('the washing-up a clump left is said in the language of who reads it, and no word of a lot is broken', {}, async ({ page, complaints }) => {
  await startBook(page);
  await room(page, 'Repot');
  await follow(page, 'A clump to the bench');
  await press(page, 'Not in the book');
  await press(page, 'Open it');
  await press(page, 'One more: Starters');
  await press(page, 'To the pots');
  await press(page, 'Potted');
  await title(page, 'Labels');
  await press(page, 'Done');
  await title(page, 'Repot');
  await room(page, 'Round');
  await page.getByText(/^Wash, then disinfect 1 dirty pot and their stone \(tray \d+\)$/).waitFor();
  const whole = async () => {
    await go(page, '#/stock');
    await page.locator('.lot-row').first().click();
    await page.locator('.fact').first().waitFor();
    await eventually(page, async () => {
      const broken = await page.locator('.fact bdi').evaluateAll((all) => all.filter((it) => !/\s/.test(it.innerText) && it.getClientRects().length > 1).map((it) => it.innerText));
      assert.deepEqual(broken, []);
    });
  };
  await whole();
  await go(page, '#/shed/phone');
  await title(page, 'This phone');
  await speak(page, 'Español');
  await title(page, 'Este teléfono');
  await go(page, '#/round');
  await title(page, 'Ronda');
  await page.getByText(/^Lavar y luego desinfectar 1 maceta sucia y su piedra \(bandeja \d+\)$/).waitFor();
  await picture(page, 'round-spanish');
  await whole();
  assert.deepEqual(complaints, []);
});

phoneTest('another language is chosen on the network, stays chosen, and changes nothing in the book', { url: null }, async ({ page, complaints }, t) => {
  const host = await aHost(t);
  await page.goto(host.url);
  await page.getByRole('link', { name: 'From a file' }).click();
  await page.locator('input[type=file]').setInputFiles(book);
  await press(page, 'Take it in');
  await title(page, 'Round');
  await answers(page);
  await go(page, '#/book');
  const entries = () => page.locator('a[href^="#/entry/"]').evaluateAll((links) => links.map((link) => link.getAttribute('href')));
  await title(page, 'Book');
  await toTheEnd(page, 'More of these');
  const before = await entries();
  assert.ok(before.length > 5);
  await go(page, '#/shed/phone');
  await speak(page, 'Español');
  await title(page, 'Este teléfono');
  assert.equal(await spoken(page), 'es');
  await go(page, '#/book');
  await title(page, 'Libro');
  await toTheEnd(page, 'Más de estas');
  await eventually(page, async () => assert.deepEqual(await entries(), before));
  await picture(page, 'book-spanish');
  await page.goto(`${host.url}#/stock`);
  await page.reload();
  await title(page, 'Plantas');
  assert.deepEqual(complaints, []);
});

phoneTest('a language that is not on the phone cannot be had without a network, and the phone says so', { url: null }, async ({ page, complaints }, t) => {
  const host = await aHost(t);
  await page.goto(host.url);
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
  await go(page, '#/shed/phone');
  await page.getByText('Kept on this phone: it opens without a network.').waitFor();
  await answers(page);
  await host.stop();
  await speak(page, 'Español');
  await page.getByText('could not be fetched').waitFor();
  await title(page, 'This phone');
  assert.equal(await spoken(page), 'en');
  assert.equal(await page.getByRole('group', { name: 'Language' }).getByRole('radio', { name: 'As the phone' }).isChecked(), true, 'the answer is what is spoken');
  await page.reload();
  await title(page, 'This phone');
  assert.deepEqual(complaints.filter((line) => !line.includes('ERR_CONNECTION_REFUSED')), []);
});

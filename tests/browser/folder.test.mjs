// The book between phones through a shared folder: each by a file of its own, whatever else lies there.
import assert from 'node:assert/strict';
import { addPlace, eventually, follow, go, press, startBook, title } from './hand.mjs';
import { axe, close, open, phoneTest, picture } from './harness.mjs';

// As in core/src/limits.rs.
const FOLDER_FILES_MAX = 64;
const told = (page, words) => page.getByText(words).first().waitFor();
const letters = async (page) => {
  await go(page, '#/book/files');
  await title(page, 'Hand over, take in');
  return page.locator('.fingerprint').innerText();
};

async function looked(page, name) {
  await picture(page, name);
  assert.deepEqual(await axe(page), []);
}

/** In place of the browser's own dialogue: a folder of the phone's own, which the test carries between phones. */
const ownFolder = () => {
  globalThis.showDirectoryPicker = async () => {
    const root = await navigator.storage.getDirectory();
    return root.getDirectoryHandle('bench-and-office', { create: true });
  };
};

/** The files of a phone's folder, by name. */
const inFolder = (page) => page.evaluate(async () => {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle('bench-and-office', { create: true });
  const files = {};
  for await (const handle of folder.values()) {
    // What a file is written into until it is whole comes and goes.
    const file = await handle.getFile().catch(() => null);
    if (file) files[handle.name] = await file.text().catch(() => '');
  }
  return files;
});

const putInFolder = (page, files) => page.evaluate(async (texts) => {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle('bench-and-office', { create: true });
  for (const [name, text] of Object.entries(texts)) {
    const handle = await folder.getFileHandle(name, { create: true });
    const writer = await handle.createWritable();
    await writer.write(text);
    await writer.close();
  }
}, files);

/** Waits until a file in a phone's folder holds this; `but` is the name of another phone's. */
async function written(page, words, but) {
  for (;;) {
    const files = await inFolder(page);
    const mine = Object.entries(files).find(([name, text]) => name !== but && name.endsWith('.txt') && text.includes(words));
    if (mine) return { name: mine[0], text: mine[1] };
    await page.waitForTimeout(200);
  }
}

async function toFolder(page) {
  await go(page, '#/book/folder');
  await title(page, 'A shared folder');
}

/** A phone without a book takes it out of a folder that holds another's file. */
async function comesIn(page, mine) {
  await putInFolder(page, { [mine.name]: mine.text });
  await follow(page, 'From a file');
  await follow(page, 'A shared folder');
  await press(page, 'Choose a folder');
  await go(page, '#/shed/places');
}

phoneTest('two phones keep in step through a shared folder, each by a file of its own, and a torn one is read again', { init: ownFolder }, async ({ page, complaints }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  await toFolder(page);
  await looked(page, 'folder-none');
  await press(page, 'Choose a folder');
  await told(page, /kept in step with the folder/);
  const mine = await written(page, 'Cool house');
  await told(page, /files of 1 phone/);
  await looked(page, 'folder-in-use');

  const other = await open({ init: ownFolder });
  try {
    const second = other.page;
    await comesIn(second, mine);
    await told(second, 'Cool house');
    const theirs = await written(second, 'phone_joined', mine.name);
    await addPlace(second, 'Lath house');
    const grown = await written(second, 'Lath house', mine.name);
    assert.equal(grown.name, theirs.name);
    assert.ok(grown.text.startsWith(theirs.text), 'a file only grows');
    assert.ok(!grown.text.includes('Cool house'), 'what is in the folder is not written into it again');
    assert.equal((await inFolder(second))[mine.name], mine.text, 'the other phone\'s file is left alone');

    // The folder's keeper has brought over only the beginning so far.
    await toFolder(page);
    await putInFolder(page, { [theirs.name]: grown.text.slice(0, -40) });
    await press(page, 'Look now');
    await told(page, /files of 2 phones/);
    await go(page, '#/shed/places');
    await title(page, 'Places');
    assert.equal(await page.getByText('Lath house').count(), 0);
    await putInFolder(page, { [theirs.name]: grown.text });
    await toFolder(page);
    await press(page, 'Look now');
    await told(page, /From the shared folder/);
    await go(page, '#/shed/places');
    await told(page, 'Lath house');
    await eventually(page, async () => assert.equal(await letters(page), await letters(second)));

    // After a new start the folder is still known, and what is recorded goes into it by itself.
    await page.reload();
    await addPlace(page, 'Seedling bench');
    const more = await written(page, 'Seedling bench');
    assert.ok(more.text.startsWith(mine.text));
    // A part in the middle that was spoilt is left out, and its writer puts it right.
    await putInFolder(page, { [mine.name]: more.text.replace('Cool house', 'Cold house') });
    await toFolder(page);
    await press(page, 'Look now');
    const mended = await written(page, 'Cool house');
    assert.ok(!mended.text.includes('Cold house') && mended.text.includes('Seedling bench'));
    assert.deepEqual(other.complaints, []);
  } finally {
    await close(other);
  }
  assert.deepEqual(complaints, []);
});

phoneTest('a file of another book in the folder stays out and is named, and stands in no other\'s way', { init: ownFolder }, async ({ page, complaints }) => {
  await startBook(page);
  await addPlace(page, 'Cool house');
  await toFolder(page);
  await press(page, 'Choose a folder');
  const mine = await written(page, 'Cool house');

  const [stranger, other] = [await open({ init: ownFolder }), await open({ init: ownFolder })];
  try {
    await startBook(stranger.page);
    await addPlace(stranger.page, 'Strange house');
    await toFolder(stranger.page);
    await press(stranger.page, 'Choose a folder');
    const strange = await written(stranger.page, 'Strange house');

    const second = other.page;
    await comesIn(second, mine);
    await told(second, 'Cool house');
    await addPlace(second, 'Lath house');
    const theirs = await written(second, 'Lath house', mine.name);

    await toFolder(page);
    await putInFolder(page, { [strange.name]: strange.text, [theirs.name]: theirs.text });
    await press(page, 'Look now');
    await told(page, new RegExp(`${strange.name}.* stays out`));
    await looked(page, 'folder-foreign');
    await go(page, '#/shed/places');
    await told(page, 'Lath house');
    assert.equal(await page.getByText('Strange house').count(), 0);
    for (const name of ['Fern house', 'Moss house', 'Seed house']) {
      await addPlace(page, name);
      const own = await written(page, name, theirs.name);
      assert.equal(own.name, mine.name);
      assert.equal(own.text.split('Cool house').length, 2, 'what lies there is not written once more');
    }
    await toFolder(page);
    await told(page, new RegExp(`${strange.name}.* stays out`));
    assert.equal((await inFolder(page))[strange.name], strange.text);
    assert.deepEqual([...stranger.complaints, ...other.complaints], []);
  } finally {
    await close(stranger);
    await close(other);
  }
  assert.deepEqual(complaints, []);
});

phoneTest('a folder may hold the files of so many phones, and of more it is said', { init: ownFolder }, async ({ page, complaints }) => {
  await startBook(page);
  await toFolder(page);
  await press(page, 'Choose a folder');
  await told(page, /files of 1 phone/);
  const look = async (phones) => {
    const others = Array.from({ length: phones - 1 }, (_, at) => [`velamen-zzzzzzzzzzzzz${at}.txt`, '']);
    await putInFolder(page, Object.fromEntries(others));
    await press(page, 'Look now');
  };
  for (const phones of [FOLDER_FILES_MAX - 1, FOLDER_FILES_MAX]) {
    await look(phones);
    await told(page, new RegExp(`files of ${phones} phones`));
    assert.equal(await page.getByText(/files of more than/).count(), 0);
  }
  await look(FOLDER_FILES_MAX + 1);
  await told(page, `There are files of more than ${FOLDER_FILES_MAX} phones in the folder.`);
  assert.deepEqual(complaints, []);
});

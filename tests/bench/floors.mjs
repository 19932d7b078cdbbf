// What the browser allows without a program: raw IndexedDB and plain JSON, for comparison in the same run.

const asked = (request) =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
const ended = (transaction) =>
  new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
  });

let database;
async function opened() {
  if (!database) {
    const request = indexedDB.open('floors', 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('blob');
      request.result.createObjectStore('rows', { autoIncrement: true });
    };
    database = await asked(request);
  }
  return database;
}

let book;
let lots;

window.__floors = {
  /** Keeps the whole book as one text. */
  async keep(made) {
    const transaction = (await opened()).transaction('blob', 'readwrite', { durability: 'strict' });
    transaction.objectStore('blob').put(new TextEncoder().encode(JSON.stringify(made)), 'book');
    await ended(transaction);
  },
  /** Reads and parses it. */
  async open() {
    const bytes = await asked((await opened()).transaction('blob').objectStore('blob').get('book'));
    book = JSON.parse(new TextDecoder().decode(bytes));
    lots = new Map(book.lots.map((lot) => [lot.id, lot]));
  },
  async overdue(before) {
    const late = book.tasks.filter((task) => !task.done && task.due < before);
    late.sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : a.id < b.id ? -1 : 1));
    return late.map(({ id, due, kind, lot }) => {
      const { name, location } = lots.get(lot);
      return { id, due, kind, lot, name, location };
    });
  },
  /** One small row, durable. */
  async tap(text) {
    const transaction = (await opened()).transaction('rows', 'readwrite', { durability: 'strict' });
    transaction.objectStore('rows').add(text);
    await ended(transaction);
  },
};

// The program as `window.__bench`: rows in, rows out, over the very module that the program's own page loads.

const glueAt = document.querySelector('link[rel=modulepreload]').href;
const moduleAt = document.querySelector('link[rel=preload]').href;
let moduleMs = 0;
const loaded = import(glueAt).then(async (glue) => {
  const wasm = await glue.default({ module_or_path: moduleAt });
  moduleMs = performance.now();
  return { glue, wasm };
});

const row = (...fields) => fields.map((field) => field ?? '').join('\t');
const lotRow = (lot) =>
  row('L', lot.id, lot.name, lot.parent, lot.count, lot.location, lot.stage, lot.pot, lot.media, lot.acquired, lot.repotted, lot.treated, lot.notes);
const logRow = (log) => row('G', log.id, log.lot, log.on, log.kind, log.by, log.qty, log.what);
const taskRow = (task) => row('T', task.id, task.lot, task.kind, task.due);

function bookRows({ lots, logs, tasks }) {
  const places = [...new Set(lots.map((lot) => lot.location))].map((name) => row('P', name));
  return [...places, ...lots.map(lotRow), ...logs.map(logRow), ...tasks.map(taskRow)].join('\n');
}

function deedRows({ log, lot, patch, delta, done, tasks }) {
  const rows = [logRow(log)];
  if ('count' in patch) rows.push(row('C', lot, delta));
  if ('pot' in patch) rows.push(row('R', lot, patch.pot, patch.media));
  if ('location' in patch) rows.push(row('M', lot, patch.location));
  if ('treated' in patch) rows.push(row('F', lot));
  if ('notes' in patch) rows.push(row('N', lot, patch.notes));
  if (done) rows.push(row('D', done));
  rows.push(...tasks.map(taskRow));
  return rows.join('\n');
}

async function through(stream, bytes) {
  const passed = new Blob([bytes]).stream().pipeThrough(stream);
  return new Uint8Array(await new Response(passed).arrayBuffer());
}
export const zipped = (bytes) => through(new CompressionStream('gzip'), bytes);
export const unzipped = (bytes) => through(new DecompressionStream('gzip'), bytes);

const number = (text) => Number(text);
const split = (text) => (text === '' ? [] : text.trimEnd().split('\n').map((line) => line.split('\t')));

/** What this phone had when it took a file in, before it joined the book: what the other one has. */
let taken;

window.__bench = {
  async open() {
    const { glue } = await loaded;
    await glue.bench_open();
  },
  async overdue(date) {
    const { glue } = await loaded;
    return split(await glue.bench_late(date)).map(([id, due, kind, lot, name, location]) => ({ id, due, kind, lot, name, location }));
  },
  async seed(book) {
    const { glue } = await loaded;
    await glue.bench_ask('seed', bookRows(book));
  },
  async record(deed) {
    const { glue } = await loaded;
    await glue.bench_ask('ready');
    await glue.bench_ask('record', deedRows(deed));
  },
  async recordMany(deeds) {
    const { glue } = await loaded;
    await glue.bench_ask('ready');
    await glue.bench_ask('record_many', deeds.map(deedRows).join('\n\n'));
  },
  async mark() {
    const { glue } = await loaded;
    await glue.bench_ask('ready');
    const mark = taken ?? (await glue.bench_ask('mark'));
    taken = undefined;
    return mark;
  },
  async exportFile(mark) {
    const { glue } = await loaded;
    await glue.bench_ask('ready');
    return zipped(new TextEncoder().encode(await glue.bench_ask('file', mark)));
  },
  async importFile(bytes) {
    const { glue } = await loaded;
    await glue.bench_ask('ready');
    await glue.bench_ask('take_in', new TextDecoder().decode(await unzipped(bytes)));
    taken = await glue.bench_ask('mark');
  },
  async dump() {
    const { glue } = await loaded;
    await glue.bench_ask('ready');
    const made = { lots: [], logs: [], tasks: [] };
    for (const [kind, ...f] of split(await glue.bench_ask('dump'))) {
      if (kind === 'L') {
        const [id, name, parent, count, location, stage, pot, media, acquired, repotted, treated, notes] = f;
        // A pot that came as a number goes back as one.
        const size = /^\d+$/.test(pot) ? number(pot) : pot;
        made.lots.push({ id, name, parent: parent || null, count: number(count), location, stage, pot: size, media, acquired, repotted, treated, notes });
      } else if (kind === 'G') {
        const [id, lot, on, what, by, qty, words] = f;
        made.logs.push({ id, lot, on, kind: what, by, qty: number(qty), what: words });
      } else {
        const [id, lot, chore, due, done] = f;
        made.tasks.push({ id, lot, kind: chore, due, done: number(done) });
      }
    }
    for (const rows of Object.values(made)) rows.sort((a, b) => (a.id < b.id ? -1 : 1));
    return made;
  },
  /** When the module was there, from the beginning of the page. */
  inner: () => ({ module: moduleMs }),
  merge: 'every entry of both phones; counts are added up, a field goes to the later change that knew of the other',
  /** The last line of the book as it is stored: what a raw row of the same bytes is made of. */
  async lastLine() {
    const { glue } = await loaded;
    await glue.bench_ask('ready');
    return glue.bench_ask('last_line');
  },
  /** Done when the whole book was read. */
  async ready() {
    const { glue } = await loaded;
    await glue.bench_ask('ready');
  },
  /** Bytes of the module's own memory. */
  async memory() {
    const { wasm } = await loaded;
    return wasm.memory.buffer.byteLength;
  },
};

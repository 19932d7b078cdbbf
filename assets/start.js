// Starts the page in a language: the one chosen on this phone, else the first the phone speaks, else English. What it
// needs is asked for at once, each file with the sum of its bytes. Written into index.html by `cargo xtask build`.
const pages = @PAGES@;

/** What was chosen; nothing where the browser keeps nothing. */
function chosen() {
  try {
    return JSON.parse(localStorage.getItem('velamen.preferences'))?.language;
  } catch {
    return undefined;
  }
}

const spoken = [chosen(), ...navigator.languages.map((language) => language.slice(0, 2))];
const language = spoken.find((name) => Object.hasOwn(pages, name)) ?? 'en';
const page = pages[language];
document.documentElement.lang = language;

function link(rel, [href, integrity], more) {
  document.head.append(Object.assign(document.createElement('link'), { rel, href, integrity, crossOrigin: 'anonymous', ...more }));
}
link('modulepreload', page.script);
link('modulepreload', page.parts);
link('preload', page.module, { as: 'fetch', type: 'application/wasm' });
// Everything but the first screen, which waits for nothing of this.
link('preload', page.rest, { as: 'fetch', type: 'application/wasm', fetchPriority: 'low' });
// Where it cannot be compiled while it comes, the script fetches it in its own way.
const compiled = WebAssembly.compileStreaming(fetch(page.module[0])).catch(() => page.module[0]);
const { default: start } = await import(page.script[0]);
const module_or_path = await compiled;
// What waits on the page has its turn between compiling and the first screen.
await new Promise((done) => { setTimeout(done); });
await start({ module_or_path });

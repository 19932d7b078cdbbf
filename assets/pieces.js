// How the second part of the program reaches the compiler. Put before the loader of the parts by `cargo xtask build`.

/** Bytes the compiler looks at before the page has its turn. */
const PIECE = 1 << 18;

/** Lets whatever waits on the page go first. */
const turn = () =>
  new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => done(port1.close());
    port2.postMessage(null);
  });

/** The bytes of an answer in small pieces, the page free in between. */
function inPieces(answer) {
  const reader = answer.body.getReader();
  return new ReadableStream({
    cancel: (why) => reader.cancel(why),
    async pull(pieces) {
      const { done, value } = await reader.read();
      if (done) {
        pieces.close();
        return;
      }
      for (let at = 0; at < value.length; at += PIECE) {
        pieces.enqueue(value.subarray(at, at + PIECE));
        await turn();
      }
    },
  });
}

/**
 * Compiles a module and joins it to the page. At the first visit in pieces: handed over at once, megabytes hold the page
 * up for as long as a tap would. Later the browser may have kept what it compiled, and finds it by the answer itself.
 */
async function joined(coming, imports) {
  const answer = await coming;
  const whole = navigator.serviceWorker?.controller || !answer.ok || !answer.body;
  const headers = { 'Content-Type': 'application/wasm' };
  const module = await WebAssembly.compileStreaming(whole ? answer : new Response(inPieces(answer), { headers })).catch(async (why) => {
    if (!answer.ok) throw why;
    // Sent under another type than its own, or to a browser that takes no stream of ours.
    const again = await fetch(answer.url);
    if (!again.ok) throw why;
    return WebAssembly.compile(await again.arrayBuffer());
  });
  await turn();
  const joint = await WebAssembly.instantiate(module, imports);
  await turn();
  return joint;
}


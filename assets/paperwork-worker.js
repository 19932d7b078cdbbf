// Draws and reads the codes on labels, away from the page. Fetched when it is first asked.
//
// Asked with { id, texts, onScreen } it answers { id, drawn }, with { id, width, height, rgba } it answers { id, text }, and with
// { id, fault } where something went wrong. Questions asked before the module is there wait for it.
'use strict';

importScripts('./paperwork.js');
const ready = wasm_bindgen({ module_or_path: './paperwork_bg.wasm' });

self.onmessage = async ({ data }) => {
  const { id } = data;
  try {
    await ready;
    if (data.texts) self.postMessage({ id, drawn: data.texts.map((text) => wasm_bindgen.draw(text, data.onScreen === true)) });
    else self.postMessage({ id, text: wasm_bindgen.read(data.width, data.height, data.rgba) });
  } catch (error) {
    self.postMessage({ id, fault: String(error) });
  }
};

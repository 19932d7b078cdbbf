// A camera that is none: a still film of a label's code, and a printer that only counts.
import { writeFile } from 'node:fs/promises';
import path from 'node:path';

/** Counts what is sent to the printer, which a test has none of. */
export const noPrinter = () => {
  window.printed = 0;
  window.print = () => { window.printed += 1; };
};

/** A still film of a label, for a camera that is none: raw frames of 640 by 480, light grey around the code. */
export async function film(folder, name, rows) {
  const [width, height, scale] = [640, 480, 7];
  const side = rows.length;
  const [left, top] = [(width - side * scale) >> 1, (height - side * scale) >> 1];
  const bright = Buffer.alloc(width * height, 215);
  rows.forEach((row, y) => row.forEach((dark, x) => {
    if (!dark) return;
    for (let line = 0; line < scale; line += 1) {
      const from = (top + y * scale + line) * width + left + x * scale;
      bright.fill(40, from, from + scale);
    }
  }));
  const colour = Buffer.alloc((width * height) / 2, 128);
  const frame = Buffer.concat([Buffer.from('FRAME\n'), bright, colour]);
  const file = path.join(folder, name);
  await writeFile(file, Buffer.concat([Buffer.from(`YUV4MPEG2 W${width} H${height} F10:1 Ip A1:1 C420jpeg\n`), frame, frame, frame]));
  return file;
}

/** The modules of the code on the label that is shown. */
export function modules(page) {
  return page.locator('.print-preview .print-code').evaluate((svg) => {
    const side = svg.viewBox.baseVal.width - 8;
    const rows = Array.from({ length: side }, () => Array(side).fill(false));
    for (const [, x, y, run] of svg.querySelector('path').getAttribute('d').matchAll(/M(\d+) (\d+)h(\d+)/g)) {
      rows[y].fill(true, Number(x), Number(x) + Number(run));
    }
    return rows;
  });
}

/** Flags of a browser whose camera shows that film. */
export const watching = (file) => ['--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream', `--use-file-for-fake-video-capture=${file}`];

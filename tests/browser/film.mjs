// A camera that is none: a still film of a label's code, a film of what a screen shows, and a printer that only counts.
import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import { inflateSync } from 'node:zlib';

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

/** Brightness of every dot of a picture as the browser takes them (PNG, eight bits, no interlace): `{ width, height, grey }`. */
function brightness(png) {
  let [width, height, channels] = [0, 0, 3];
  const packed = [];
  for (let at = 8; at < png.length;) {
    const length = png.readUInt32BE(at);
    const kind = png.toString('latin1', at + 4, at + 8);
    const body = png.subarray(at + 8, at + 8 + length);
    if (kind === 'IHDR') {
      [width, height] = [body.readUInt32BE(0), body.readUInt32BE(4)];
      channels = { 0: 1, 2: 3, 4: 2, 6: 4 }[body[9]];
    } else if (kind === 'IDAT') packed.push(body);
    at += length + 12;
  }
  const raw = inflateSync(Buffer.concat(packed));
  const row = width * channels;
  const dots = Buffer.alloc(row * height);
  for (let y = 0; y < height; y += 1) {
    const filter = raw[y * (row + 1)];
    for (let x = 0; x < row; x += 1) {
      const left = x >= channels ? dots[y * row + x - channels] : 0;
      const up = y ? dots[(y - 1) * row + x] : 0;
      const corner = y && x >= channels ? dots[(y - 1) * row + x - channels] : 0;
      const near = [left, up, corner].map((one) => Math.abs(left + up - corner - one));
      const guess = near[0] <= near[1] && near[0] <= near[2] ? left : near[1] <= near[2] ? up : corner;
      const add = [0, left, up, (left + up) >> 1, guess][filter];
      dots[y * row + x] = raw[y * (row + 1) + 1 + x] + add;
    }
  }
  const grey = Buffer.alloc(width * height);
  for (let at = 0; at < grey.length; at += 1) {
    const [red, green, blue] = channels < 3 ? Array(3).fill(dots[at * channels]) : dots.subarray(at * channels, at * channels + 3);
    grey[at] = (299 * red + 587 * green + 114 * blue) / 1000;
  }
  return { width, height, grey };
}

/**
 * A film of what a screen showed, picture by picture, each for half a second: taken in 640 by 480 by a hand that comes a
 * little nearer with each frame, every dot the mean of those it covers, without quite white or quite black.
 */
export async function filmOf(folder, name, pictures) {
  const [width, height] = [640, 480];
  const colour = Buffer.alloc((width * height) / 2, 128);
  const frames = pictures.flatMap((png) => {
    const seen = brightness(png);
    return [50, 38, 27, 16, 6].map((margin) => frameOf(seen, [width, height], margin, colour));
  });
  const file = path.join(folder, name);
  await writeFile(file, Buffer.concat([Buffer.from(`YUV4MPEG2 W${width} H${height} F10:1 Ip A1:1 C420jpeg\n`), ...frames]));
  return file;
}

function frameOf(seen, [width, height], margin, colour) {
  const step = Math.max(seen.width, seen.height) / (height - margin);
  const [wide, high] = [Math.floor(seen.width / step), Math.floor(seen.height / step)];
  const [left, top] = [(width - wide) >> 1, (height - high) >> 1];
  const bright = Buffer.alloc(width * height, 60);
  for (let y = 0; y < high; y += 1) {
    for (let x = 0; x < wide; x += 1) {
      let [sum, count] = [0, 0];
      for (let v = Math.floor(y * step); v < (y + 1) * step && v < seen.height; v += 1) {
        for (let u = Math.floor(x * step); u < (x + 1) * step && u < seen.width; u += 1) {
          sum += seen.grey[v * seen.width + u];
          count += 1;
        }
      }
      bright[(top + y) * width + left + x] = 35 + (185 * sum) / count / 255;
    }
  }
  return Buffer.concat([Buffer.from('FRAME\n'), bright, colour]);
}

/** Flags of a browser whose camera shows that film. */
export const watching = (file) => ['--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream', `--use-file-for-fake-video-capture=${file}`];

// What a page printed by the browser holds: the size of its pages, and every filled shape in millimetres from the upper
// left corner. Enough of the format for what Chromium writes, and no more; texts are not read.
import { inflateSync } from 'node:zlib';

const MM = 25.4 / 72;

/** `[{ width, height, shapes: [[{ left, top, right, bottom }, …], …] }, …]`: a shape is the boxes of its parts. */
export function pagesOf(pdf) {
  const text = pdf.toString('latin1');
  const objects = new Map();
  for (const found of text.matchAll(/(?:^|\n)(\d+) 0 obj\b/g)) {
    const from = found.index + found[0].length;
    objects.set(Number(found[1]), text.slice(from, text.indexOf('endobj', from)));
  }
  const number = (within, name) => Number(within.match(new RegExp(`/${name} (\\d+) 0 R`))?.[1]);
  const pages = [];
  const walk = (id, box) => {
    const object = objects.get(id) ?? '';
    const own = object.match(/\/MediaBox\s*\[([^\]]*)\]/);
    const media = own ? own[1].trim().split(/\s+/).map(Number) : box;
    if (/\/Type\s*\/Pages/.test(object)) {
      for (const kid of object.match(/\/Kids\s*\[([^\]]*)\]/)[1].matchAll(/(\d+) 0 R/g)) walk(Number(kid[1]), media);
    } else {
      pages.push(read(stream(objects, number(object, 'Contents')), media));
    }
  };
  const root = number(text.slice(text.lastIndexOf('trailer')), 'Root');
  walk(number(objects.get(root), 'Pages'), null);
  return pages;
}

function stream(objects, id) {
  const object = objects.get(id);
  const from = object.indexOf('stream') + 'stream'.length;
  const begin = object[from] === '\r' ? from + 2 : from + 1;
  const bytes = Buffer.from(object.slice(begin, object.lastIndexOf('endstream')), 'latin1');
  return (/FlateDecode/.test(object.slice(0, from)) ? inflateSync(bytes) : bytes).toString('latin1');
}

const times = ([a, b, c, d, e, f], [A, B, C, D, E, F]) => [
  a * A + b * C, a * B + b * D, c * A + d * C, c * B + d * D, e * A + f * C + E, e * B + f * D + F,
];

function read(content, media) {
  const [left, bottom, right, top] = media;
  const shapes = [];
  const stack = [];
  let matrix = [1, 0, 0, 1, 0, 0];
  let operands = [];
  let parts = [];
  const place = (x, y) => {
    const [a, b, c, d, e, f] = matrix;
    return [(a * x + c * y + e - left) * MM, (top - (b * x + d * y + f)) * MM];
  };
  const grow = (part, [x, y]) => {
    part.left = Math.min(part.left, x);
    part.right = Math.max(part.right, x);
    part.top = Math.min(part.top, y);
    part.bottom = Math.max(part.bottom, y);
  };
  const begin = (point) => {
    parts.push({ left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity });
    grow(parts.at(-1), point);
  };
  for (const word of content.replace(/\((?:\\.|[^\\)])*\)|<[0-9A-Fa-f\s]*>/g, ' ').split(/\s+/)) {
    if (/^[-+.\d]/.test(word)) {
      operands.push(Number(word));
      continue;
    }
    const n = operands;
    operands = [];
    switch (word) {
      case 'q': stack.push(matrix); break;
      case 'Q': matrix = stack.pop() ?? matrix; break;
      case 'cm': matrix = times(n, matrix); break;
      case 'm': begin(place(n[0], n[1])); break;
      case 'l': grow(parts.at(-1), place(n[0], n[1])); break;
      case 'c': for (let at = 0; at < 6; at += 2) grow(parts.at(-1), place(n[at], n[at + 1])); break;
      case 're':
        begin(place(n[0], n[1]));
        grow(parts.at(-1), place(n[0] + n[2], n[1] + n[3]));
        break;
      case 'f': case 'f*': case 'F': case 'B': case 'b':
        if (parts.length > 0) shapes.push(parts);
        parts = [];
        break;
      case 'n': case 'S': case 's': parts = []; break;
      default: break;
    }
  }
  return { width: (right - left) * MM, height: (top - bottom) * MM, shapes };
}

/** The box around all parts of a shape. */
export function around(parts) {
  return {
    left: Math.min(...parts.map((part) => part.left)),
    top: Math.min(...parts.map((part) => part.top)),
    right: Math.max(...parts.map((part) => part.right)),
    bottom: Math.max(...parts.map((part) => part.bottom)),
  };
}

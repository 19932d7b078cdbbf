// Files under a passphrase, written and opened without the program: the form as DEVELOPERS.md tells it, in the ciphers
// of the runtime. Anyone who holds a passphrase and a file can do the same.
import { createCipheriv, createDecipheriv, pbkdf2Sync, randomBytes } from 'node:crypto';
import { gunzipSync, gzipSync } from 'node:zlib';

const TAG = 16;

function keyOf(passphrase, head) {
  return pbkdf2Sync(passphrase.normalize('NFC'), Buffer.from(head.salt, 'base64'), head.rounds, 32, 'sha256');
}

function nonce(at, last) {
  const bytes = Buffer.alloc(12);
  bytes.writeBigUInt64BE(BigInt(at), 3);
  bytes[11] = last ? 1 : 0;
  return bytes;
}

/** A text under a passphrase. `head` replaces parts of the first line, `lines` changes the chunks' lines. */
export function enclose(text, passphrase, { head: own = {}, lines: change = (lines) => lines } = {}) {
  const head = {
    velamen_envelope: 1,
    key: 'PBKDF2-HMAC-SHA-256',
    rounds: 100_000,
    salt: randomBytes(16).toString('base64'),
    cipher: 'AES-256-GCM',
    chunk: 1_024,
    packed: true,
    ...own,
  };
  const first = JSON.stringify(head);
  const key = keyOf(passphrase, { ...head, rounds: Math.min(head.rounds, 5_000_000) });
  const plain = head.packed ? gzipSync(text) : Buffer.from(text);
  const count = Math.max(1, Math.ceil(plain.length / head.chunk));
  const lines = Array.from({ length: count }, (_, at) => {
    const cipher = createCipheriv('aes-256-gcm', key, nonce(at, at + 1 === count));
    cipher.setAAD(Buffer.from(first));
    const part = plain.subarray(at * head.chunk, (at + 1) * head.chunk);
    return Buffer.concat([cipher.update(part), cipher.final(), cipher.getAuthTag()]).toString('base64');
  });
  return `${[first, ...change(lines)].join('\n')}\n`;
}

/** The text under a passphrase; throws where anything is not as it was written. */
export function disclose(file, passphrase) {
  const [first, ...lines] = file.trimEnd().split('\n');
  const head = JSON.parse(first);
  const key = keyOf(passphrase, head);
  const plain = Buffer.concat(lines.map((line, at) => {
    const bytes = Buffer.from(line, 'base64');
    const cipher = createDecipheriv('aes-256-gcm', key, nonce(at, at + 1 === lines.length));
    cipher.setAAD(Buffer.from(first));
    cipher.setAuthTag(bytes.subarray(-TAG));
    return Buffer.concat([cipher.update(bytes.subarray(0, -TAG)), cipher.final()]);
  }));
  return (head.packed ? gunzipSync(plain) : plain).toString('utf8');
}

// @ts-check
/** Opening the parts of a sealed lesson, as `chessnb.teaching.sealed_lesson` has sealed them. */

/** The round constants of SHA-256 (FIPS 180-4, 4.2.2): from the cube roots of the first primes. */
const PRIMES = (() => {
  /** @type {number[]} */
  const found = [];
  for (let number = 2; found.length < 64; number += 1) if (found.every((prime) => number % prime)) found.push(number);
  return found;
})();

/** @param {number} root @returns {number} the first 32 bits of what stands behind its point */
const bitsOf = (root) => Math.floor((root - Math.floor(root)) * 2 ** 32) | 0;
const ROUNDS = PRIMES.map((prime) => bitsOf(Math.cbrt(prime)));
const BEGIN = PRIMES.slice(0, 8).map((prime) => bitsOf(Math.sqrt(prime)));

/** @param {number} word @param {number} by @returns {number} */
const turned = (word, by) => (word >>> by) | (word << (32 - by));

/**
 * SHA-256 without the browser's own, which a page from a file may not be given.
 * @param {Uint8Array} bytes
 * @returns {Uint8Array}
 */
export function sha256(bytes) {
  const padded = new Uint8Array(((bytes.length + 8) >> 6) * 64 + 64);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 4, bytes.length * 8);
  const sum = [...BEGIN];
  const words = new Int32Array(64);
  for (let at = 0; at < padded.length; at += 64) {
    for (let i = 0; i < 16; i += 1) words[i] = view.getInt32(at + 4 * i);
    for (let i = 16; i < 64; i += 1) {
      const [x, y] = [words[i - 15], words[i - 2]];
      const small = turned(x, 7) ^ turned(x, 18) ^ (x >>> 3);
      const large = turned(y, 17) ^ turned(y, 19) ^ (y >>> 10);
      words[i] = (words[i - 16] + small + words[i - 7] + large) | 0;
    }
    let [a, b, c, d, e, f, g, h] = sum;
    for (let i = 0; i < 64; i += 1) {
      const first = (h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g)) + ROUNDS[i] + words[i]) | 0;
      const second = ((turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + second) | 0];
    }
    [a, b, c, d, e, f, g, h].forEach((word, i) => {
      sum[i] = (sum[i] + word) | 0;
    });
  }
  const out = new DataView(new ArrayBuffer(32));
  sum.forEach((word, i) => out.setInt32(4 * i, word));
  return new Uint8Array(out.buffer);
}

/**
 * @param {string} name the part's
 * @param {string} text as it stands in the file
 * @returns {Promise<any>} what was sealed
 */
export async function unseal(name, text) {
  const bytes = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
  const coder = new TextEncoder();
  for (let at = 0; at < bytes.length; at += 32) {
    const veil = sha256(coder.encode(`${name}:${at / 32}`));
    for (let i = 0; i < 32 && at + i < bytes.length; i += 1) bytes[at + i] ^= veil[i];
  }
  const packed = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
  return JSON.parse(await new Response(packed).text());
}

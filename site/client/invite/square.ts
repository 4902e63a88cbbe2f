// Square codes that a phone's camera reads: ISO/IEC 18004, "QR code", byte mode, level M (about 15 % may be
// dirty), versions 1 to 10. That is what an address of at most 213 signs needs, and all of the standard
// that is here. A Go test holds every module against a library that is not ours.

/** Whether each module is dark, by rows. */
export type Square = boolean[][];

/** Light modules that have to stay free on each side. */
export const QUIET = 4;

interface Version {
  /** Bytes of data in each block. */
  blocks: number[];
  /** Bytes of correction behind each block. */
  check: number;
  /** Where the small squares stand, in both directions. */
  marks: number[];
}

const VERSIONS: Version[] = [
  { blocks: [16], check: 10, marks: [] },
  { blocks: [28], check: 16, marks: [6, 18] },
  { blocks: [44], check: 26, marks: [6, 22] },
  { blocks: [32, 32], check: 18, marks: [6, 26] },
  { blocks: [43, 43], check: 24, marks: [6, 30] },
  { blocks: [27, 27, 27, 27], check: 16, marks: [6, 34] },
  { blocks: [31, 31, 31, 31], check: 18, marks: [6, 22, 38] },
  { blocks: [38, 38, 39, 39], check: 22, marks: [6, 24, 42] },
  { blocks: [36, 36, 36, 37, 37], check: 22, marks: [6, 26, 46] },
  { blocks: [43, 43, 43, 43, 44], check: 26, marks: [6, 28, 50] },
];

/** The code of an ASCII text; undefined where it is too long. */
export function square(text: string): Square | undefined {
  const n = VERSIONS.findIndex((v, i) => text.length * 8 + 4 + lengthBits(i + 1) <= sum(v.blocks) * 8);
  const version = VERSIONS[n];
  if (!version) return undefined;
  const bytes = corrected(data(text, n + 1, sum(version.blocks)), version);
  let best: Square | undefined;
  let least = Infinity;
  for (let mask = 0; mask < MASKS.length; mask++) {
    const tried = drawn(bytes, n + 1, version.marks, mask);
    const cost = penalty(tried);
    if (cost >= least) continue;
    best = tried;
    least = cost;
  }
  return best;
}

/** What draws its dark modules in a picture whose unit is one module, with the quiet zone around: runs of each row. */
export function path(code: Square): string {
  let out = "";
  code.forEach((row, y) => {
    for (let x = 0; x < row.length; x++) {
      let end = x;
      while (row[end]) end++;
      if (end > x) out += `M${x + QUIET} ${y + QUIET}h${end - x}v1h-${end - x}z`;
      x = end;
    }
  });
  return out;
}

/** Modules along its side, with the quiet zone. */
export function side(code: Square): number {
  return code.length + 2 * QUIET;
}

const sum = (all: number[]): number => all.reduce((a, b) => a + b, 0);

/** Bits that say how many bytes follow. */
const lengthBits = (version: number): number => (version < 10 ? 8 : 16);

/** The text as bytes: mode, length, signs, an end, and padding. */
function data(text: string, version: number, room: number): number[] {
  const bits: number[] = [];
  const add = (value: number, n: number): void => {
    while (n-- > 0) bits.push((value >> n) & 1);
  };
  add(4, 4); // byte mode
  add(text.length, lengthBits(version));
  for (const sign of text) add(sign.charCodeAt(0), 8);
  add(0, Math.min(4, room * 8 - bits.length));
  while (bits.length % 8) bits.push(0);
  const bytes: number[] = [];
  for (let i = 0; i < bits.length; i += 8) bytes.push(bits.slice(i, i + 8).reduce((byte, bit) => byte * 2 + bit, 0));
  for (let pad = 236; bytes.length < room; pad = 253 - pad) bytes.push(pad); // 236 and 17 in turn
  return bytes;
}

/** The blocks with their correction, a byte of each in turn. */
function corrected(bytes: number[], { blocks, check }: Version): number[] {
  const parts: number[][] = [];
  let at = 0;
  for (const size of blocks) parts.push(bytes.slice(at, (at += size)));
  const out: number[] = [];
  const weave = (all: number[][], most: number): void => {
    for (let i = 0; i < most; i++) for (const one of all) if (i < one.length) out.push(one[i] as number);
  };
  weave(parts, Math.max(...blocks));
  weave(parts.map((part) => correction(part, check)), check);
  return out;
}

/** Multiplication of bytes as polynomials over two elements, modulo x^8 + x^4 + x^3 + x^2 + 1. */
function times(a: number, b: number): number {
  let out = 0;
  for (let i = 7; i >= 0; i--) out = (out << 1) ^ (out >> 7 ? 0x11d : 0) ^ ((b >> i) & 1 ? a : 0);
  return out;
}

/** Reed and Solomon's code: what is left of the block when it is divided by (x - 1)(x - 2)(x - 4)... */
function correction(block: number[], n: number): number[] {
  let divisor = [1];
  for (let i = 0, root = 1; i < n; i++, root = times(root, 2)) {
    const by = divisor.concat(0);
    divisor.forEach((d, j) => (by[j + 1] = (by[j + 1] as number) ^ times(d, root)));
    divisor = by;
  }
  const left = block.concat(new Array<number>(n).fill(0));
  for (let i = 0; i < block.length; i++) {
    const lead = left[i] as number;
    divisor.forEach((d, j) => (left[i + j] = (left[i + j] as number) ^ times(d, lead)));
  }
  return left.slice(block.length);
}

/** Which modules of the data are turned over, by column and row. */
const MASKS: ((x: number, y: number) => boolean)[] = [
  (x, y) => (x + y) % 2 === 0,
  (_, y) => y % 2 === 0,
  (x) => x % 3 === 0,
  (x, y) => (x + y) % 3 === 0,
  (x, y) => (Math.floor(y / 2) + Math.floor(x / 3)) % 2 === 0,
  (x, y) => ((x * y) % 2) + ((x * y) % 3) === 0,
  (x, y) => (((x * y) % 2) + ((x * y) % 3)) % 2 === 0,
  (x, y) => (((x + y) % 2) + ((x * y) % 3)) % 2 === 0,
];

function drawn(bytes: number[], version: number, marks: number[], mask: number): Square {
  const size = 17 + 4 * version;
  const code: (boolean | undefined)[][] = Array.from({ length: size }, () => new Array<boolean | undefined>(size).fill(undefined));
  const set = (x: number, y: number, dark: boolean): void => {
    const row = code[y];
    if (row && x >= 0 && x < size) row[x] = dark;
  };
  finders(size, set);
  small(marks, (x, y) => code[y]?.[x] !== undefined, set);
  for (let i = 8; i < size - 8; i++) {
    set(i, 6, i % 2 === 0);
    set(6, i, i % 2 === 0);
  }
  format(size, mask, set);
  if (version >= 7) tellVersion(size, version, set);
  fill(code, bytes, MASKS[mask] as (x: number, y: number) => boolean);
  return code as Square;
}

type Set = (x: number, y: number, dark: boolean) => void;

/** The three large squares in the corners, each with a light edge. */
function finders(size: number, set: Set): void {
  for (const [left, top] of [[0, 0], [size - 7, 0], [0, size - 7]] as const) {
    for (let x = -1; x < 8; x++) {
      for (let y = -1; y < 8; y++) {
        const ring = Math.max(Math.abs(x - 3), Math.abs(y - 3));
        set(left + x, top + y, ring !== 2 && ring < 4);
      }
    }
  }
}

function small(marks: number[], taken: (x: number, y: number) => boolean, set: Set): void {
  for (const x of marks) {
    for (const y of marks) {
      if (taken(x, y)) continue; // by a large one
      for (let i = -2; i <= 2; i++) for (let j = -2; j <= 2; j++) set(x + i, y + j, Math.max(Math.abs(i), Math.abs(j)) !== 1);
    }
  }
}

/** A value and the bits that let it be read where some are lost (Bose, Chaudhuri, Hocquenghem). */
function guarded(value: number, bits: number, by: number): number {
  let left = value << bits;
  for (let i = 31 - Math.clz32(left); i >= bits; i--) if ((left >> i) & 1) left ^= by << (i - bits);
  return (value << bits) | left;
}

/** Level and mask, twice: around the corner, and in two parts at the others. Level M is 0. */
function format(size: number, mask: number, set: Set): void {
  const bits = guarded(mask, 10, 0x537) ^ 0x5412;
  for (let i = 0; i < 15; i++) {
    const dark = ((bits >> i) & 1) === 1;
    set(8, i < 6 ? i : i < 8 ? i + 1 : size - 15 + i, dark);
    set(i < 8 ? size - 1 - i : i < 9 ? 7 : 14 - i, 8, dark);
  }
  set(8, size - 8, true);
}

function tellVersion(size: number, version: number, set: Set): void {
  const bits = guarded(version, 12, 0x1f25);
  for (let i = 0; i < 18; i++) {
    const dark = ((bits >> i) & 1) === 1;
    set(size - 11 + (i % 3), Math.floor(i / 3), dark);
    set(Math.floor(i / 3), size - 11 + (i % 3), dark);
  }
}

/** Data runs up and down in columns of two modules from the right, past the upright line of the seventh. */
function fill(code: (boolean | undefined)[][], bytes: number[], turned: (x: number, y: number) => boolean): void {
  const size = code.length;
  let n = 0;
  let up = true;
  for (let right = size - 1; right > 0; right -= right === 8 ? 3 : 2) {
    for (let i = 0; i < size; i++) {
      const y = up ? size - 1 - i : i;
      const row = code[y] as (boolean | undefined)[];
      for (const x of [right, right - 1]) {
        if (row[x] !== undefined) continue;
        const bit = ((bytes[n >> 3] || 0) >> (7 - (n & 7))) & 1; // a few modules at the end have no data
        row[x] = (bit === 1) !== turned(x, y);
        n++;
      }
    }
    up = !up;
  }
}

/** How hard a camera would find it, by the standard's four rules. */
function penalty(code: Square): number {
  const size = code.length;
  const columns = code.map((_, x) => code.map((row) => row[x] as boolean));
  let out = 0;
  for (const line of code.concat(columns)) out += runs(line) + 40 * alike(line);
  for (let y = 1; y < size; y++) {
    for (let x = 1; x < size; x++) {
      const dark = at(code, x, y);
      if (dark === at(code, x - 1, y) && dark === at(code, x, y - 1) && dark === at(code, x - 1, y - 1)) out += 3;
    }
  }
  const share = (20 * code.reduce((n, row) => n + row.filter((dark) => dark).length, 0)) / (size * size); // in steps of 5 %
  return out + 10 * Math.min(Math.abs(Math.floor(share) - 10), Math.abs(Math.ceil(share) - 10));
}

const at = (code: Square, x: number, y: number): boolean => (code[y] as boolean[])[x] as boolean;

/** Five or more modules alike in a line. */
function runs(line: boolean[]): number {
  let out = 0;
  for (let i = 0, start = 0; i <= line.length; i++) {
    if (i < line.length && line[i] === line[start]) continue;
    if (i - start >= 5) out += i - start - 2;
    start = i;
  }
  return out;
}

/** What looks like the middle of a large square, with four light modules on one side. */
function alike(line: boolean[]): number {
  const text = line.map((dark) => (dark ? "1" : "0")).join("");
  let out = 0;
  for (let i = 0; i + 11 <= text.length; i++) {
    const part = text.slice(i, i + 11);
    if (part === "10111010000" || part === "00001011101") out++;
  }
  return out;
}

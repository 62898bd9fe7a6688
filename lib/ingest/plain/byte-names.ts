/** Names remembered; a file of ever new names must not fill the memory. */
const MAX_NAMES = 50_000;
const MAX_BYTES = 1024;
/** Offset basis and prime of 32 bits of the FNV-1a hash (Fowler, Noll and Vo). */
const FNV = { basis: 0x811c9dc5, prime: 0x01000193 };

type Named<Meaning> = { bytes: Uint8Array; meaning: Meaning; next: Named<Meaning> | undefined };

/** What names stand for that come on many lines, found by their bytes: no text is made of a name met before. */
export class ByteNames<Meaning> {
  readonly #named = new Map<number, Named<Meaning>>();
  readonly #read: (bytes: Uint8Array) => Meaning;
  #count = 0;

  /** @param read what a name stands for, asked when it is first met */
  constructor(read: (bytes: Uint8Array) => Meaning) {
    this.#read = read;
  }

  /** What the name between two places stands for. */
  find(bytes: Uint8Array, from: number, to: number): Meaning {
    let hash = FNV.basis;
    for (let at = from; at < to; at++) hash = Math.imul(hash ^ bytes[at]!, FNV.prime);
    let named = this.#named.get(hash);
    for (; named !== undefined; named = named.next) {
      if (isSame(named.bytes, bytes, from, to)) return named.meaning;
    }
    return this.#add(hash, bytes.slice(from, to));
  }

  #add(hash: number, bytes: Uint8Array): Meaning {
    const meaning = this.#read(bytes);
    if (bytes.length > MAX_BYTES) return meaning;
    if (this.#count >= MAX_NAMES) {
      this.#named.clear();
      this.#count = 0;
    }
    this.#named.set(hash, { bytes, meaning, next: this.#named.get(hash) });
    this.#count++;
    return meaning;
  }
}

function isSame(known: Uint8Array, bytes: Uint8Array, from: number, to: number): boolean {
  if (known.length !== to - from) return false;
  for (let i = 0; i < known.length; i++) if (known[i] !== bytes[from + i]) return false;
  return true;
}

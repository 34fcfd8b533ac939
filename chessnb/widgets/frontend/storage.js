// @ts-check
/**
 * What the browser keeps of a reader's own: tries, the mark where a class stopped, candidates.
 *
 * It is kept under the lesson's key, so it outlives the page and the kernel.
 * Explorers of the same lesson tell each other; a browser that keeps nothing
 * (a private window, storage switched off) loses it with the page.
 */

const PREFIX = "chessnb/lesson/";
const CHANGED = "chessnb-kept";

export class Kept {
  /** @param {string} lesson the lesson's key @param {Storage | null} [storage] */
  constructor(lesson, storage = browserStorage()) {
    this.lesson = lesson;
    this.storage = storage;
    /** @type {Map<string, string>} what there is where the browser keeps nothing */
    this.memory = new Map();
  }

  /** @returns {boolean} whether it outlives the page */
  get lasts() {
    return this.storage !== null;
  }

  /** @param {string} what @returns {string} */
  #key(what) {
    return `${PREFIX}${this.lesson}/${what}`;
  }

  /** @template T @param {string} what @param {T} otherwise @returns {T} */
  load(what, otherwise) {
    try {
      const text = this.storage ? this.storage.getItem(this.#key(what)) : this.memory.get(what);
      return text ? JSON.parse(text) : otherwise;
    } catch {
      return otherwise; // damaged, or not ours
    }
  }

  /** @param {string} what @param {unknown} value */
  save(what, value) {
    const text = JSON.stringify(value);
    // What is kept already is no news: two explorers that follow each other would never rest.
    if (JSON.stringify(this.load(what, null)) === text) return;
    try {
      if (this.storage) this.storage.setItem(this.#key(what), text);
      else this.memory.set(what, text);
    } catch {
      this.storage = null; // full: from now on it lasts as long as the page
      this.memory.set(what, text);
    }
    globalThis.dispatchEvent?.(new CustomEvent(CHANGED, { detail: { key: this.#key(what), by: this } }));
  }

  /** Forget all that is kept of the lesson. */
  clear() {
    this.memory.clear();
    try {
      const keys = Object.keys(this.storage ?? {}).filter((key) => key.startsWith(this.#key("")));
      for (const key of keys) this.storage?.removeItem(key);
    } catch {
      this.storage = null;
    }
  }

  /**
   * Be told when another explorer, here or in another window, has saved something.
   * @param {string} what
   * @param {() => void} act
   * @returns {() => void} ends it
   */
  follow(what, act) {
    const here = (/** @type {any} */ event) => {
      if (event.detail.key === this.#key(what) && event.detail.by !== this) act();
    };
    const elsewhere = (/** @type {StorageEvent} */ event) => {
      if (event.key === this.#key(what)) act();
    };
    addEventListener(CHANGED, here);
    addEventListener("storage", elsewhere);
    return () => {
      removeEventListener(CHANGED, here);
      removeEventListener("storage", elsewhere);
    };
  }
}

/** @returns {Storage | null} */
function browserStorage() {
  try {
    const { localStorage } = globalThis;
    localStorage.setItem(PREFIX, "");
    localStorage.removeItem(PREFIX);
    return localStorage;
  } catch {
    return null;
  }
}

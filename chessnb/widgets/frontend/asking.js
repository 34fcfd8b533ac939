// @ts-check
/**
 * Questions to Python: each has a number, and an answer that nobody waits for any more is dropped.
 */

/** @typedef {Record<string, any>} Content */
/**
 * @typedef {object} Waiting
 * @property {string} kind
 * @property {string} topic
 * @property {(answer: Content) => void} heard
 * @property {(positions: number) => void} [progress]
 */

export class Questions {
  /** @param {any} model anywidget's model: on, off, send @param {string} client a name of our own, new for each page */
  constructor(model, client) {
    this.model = model;
    this.client = client;
    this.seq = 0;
    /** @type {Map<number, Waiting>} */
    this.waiting = new Map();
    this.listener = (/** @type {Content} */ content) => this.hear(content);
    model.on("msg:custom", this.listener);
  }

  /**
   * Ask; a question of the same kind and topic that is still open is forgotten.
   * @param {string} kind
   * @param {Content} content
   * @param {(answer: Content) => void} heard
   * @param {(positions: number) => void} [progress]
   * @returns {number} its number
   */
  ask(kind, content, heard, progress) {
    const topic = content.topic ?? "";
    for (const [seq, other] of this.waiting) if (other.kind === kind && other.topic === topic) this.waiting.delete(seq);
    this.seq += 1;
    this.waiting.set(this.seq, { kind, topic, heard, progress });
    this.#send({ ...content, kind, client: this.client, seq: this.seq });
    return this.seq;
  }

  /** After a restart nobody listens, and sending fails: a question is then like one that is never answered. @param {Content} content */
  #send(content) {
    try {
      this.model.send(content);
    } catch (error) {
      console.warn("Python does not listen any more", error);
    }
  }

  /** Want no answer any more. @param {string} kind @param {string} [topic] */
  drop(kind, topic = "") {
    for (const [seq, other] of this.waiting) {
      if (other.kind !== kind || other.topic !== topic) continue;
      this.waiting.delete(seq);
      this.#send({ kind: "drop", what: kind, topic, client: this.client });
    }
  }

  /** @param {Content} content */
  hear(content) {
    if (content?.client !== this.client) return;
    const waiting = this.waiting.get(content.seq);
    if (!waiting || waiting.kind !== content.kind) return;
    if (content.positions !== undefined) return waiting.progress?.(content.positions);
    this.waiting.delete(content.seq);
    waiting.heard(content);
  }

  close() {
    this.model.off("msg:custom", this.listener);
    for (const { kind, topic } of [...this.waiting.values()]) this.drop(kind, topic);
  }
}

// @ts-check
/** A thinking countdown: minutes chosen, time left, and a word when it is up. */

import { element, onEnter, word } from "./elements.js";

/** @param {number} seconds @returns {string} such as "2:05" */
export const clock = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;

export class Countdown {
  /** @param {HTMLElement} parent @param {import("./explorerwords.js").Tell} tell @param {() => number} [now] in milliseconds */
  constructor(parent, tell, now = () => Date.now()) {
    this.tell = tell;
    this.now = now;
    this.minutes = element("input", "minutes");
    this.minutes.type = "number";
    this.minutes.min = "0.5";
    this.minutes.max = "60";
    this.minutes.step = "0.5";
    this.minutes.value = "3";
    this.minutes.setAttribute("aria-label", tell("minutes"));
    this.button = word(tell("think"), () => (this.ends ? this.stop() : this.start()), "think");
    this.left = element("b", "left");
    this.left.setAttribute("role", "timer");
    this.up = element("span", "up");
    this.up.setAttribute("role", "status");
    onEnter(this.minutes, () => this.start());
    parent.append(element("span", "countdown", this.button, this.minutes, ` ${tell("minutes")} `, this.left, this.up));
    /** @type {number | null} when it ends */
    this.ends = null;
  }

  start() {
    const minutes = Number(this.minutes.value);
    if (!(minutes > 0 && minutes <= 60)) return this.minutes.focus();
    this.ends = this.now() + minutes * 60_000;
    this.up.textContent = "";
    this.button.textContent = this.tell("stopClock");
    clearInterval(this.timer);
    this.timer = setInterval(() => this.tick(), 250);
    this.tick();
  }

  tick() {
    if (this.ends === null) return;
    const seconds = Math.ceil((this.ends - this.now()) / 1000);
    const text = this.tell("timeLeft", { time: clock(Math.max(0, seconds)) });
    if (this.left.textContent !== text) this.left.textContent = text;
    if (seconds > 0) return;
    this.stop();
    this.up.textContent = this.tell("timeUp");
  }

  stop() {
    clearInterval(this.timer);
    this.ends = null;
    this.left.textContent = "";
    this.button.textContent = this.tell("think");
  }
}

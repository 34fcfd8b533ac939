// @ts-check
/** The figure alone on the whole screen, for a projector. */

export class FullScreen {
  /** @param {HTMLElement} figure @param {() => void} changed called when it came or went, by whatever key */
  constructor(figure, changed) {
    this.figure = figure;
    figure.addEventListener("fullscreenchange", changed);
  }

  /** @returns {boolean} whether this browser can do it, in this frame */
  get possible() {
    return document.fullscreenEnabled;
  }

  /** @returns {boolean} */
  get on() {
    return this.figure.matches(":fullscreen");
  }

  /** @returns {Promise<void>} settled when it came or went; rejected if the browser refuses */
  toggle() {
    return this.on ? document.exitFullscreen() : this.figure.requestFullscreen();
  }
}

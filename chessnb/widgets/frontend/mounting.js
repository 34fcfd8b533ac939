// @ts-check
/** How a view with one board enters the page: in a room of its own, or not at all, with the reason. */

import { element } from "./elements.js";
import { roomIn, showFailure } from "./room.js";
import { sayer } from "./words.js";

/**
 * What anywidget loads for such a view.
 *
 * @param {string} css its style
 * @param {(given: {model: any, say: any, words: any, whole: HTMLElement}) =>
 *   {board: {draw: () => void}, close: () => void}} open makes the view
 */
export const mounted = (css, open) => {
  /** @param {{model: any, el: HTMLElement}} given */
  const render = ({ model, el }) => {
    const room = roomIn(el, css);
    const words = model.get("words") ?? {};
    const say = sayer(words);
    try {
      const whole = element("div", "explorer");
      room.append(element("div", "page", whole));
      const view = open({ model, say, words, whole });
      const turned = () => view.board.draw();
      model.on("change:turned", turned);
      return () => {
        model.off("change:turned", turned);
        view.close();
      };
    } catch (error) {
      showFailure(room, error, say);
      return () => {};
    }
  };

  return { render };
};

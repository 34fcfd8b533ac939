// @ts-check
/**
 * The live board's entry: what anywidget loads, once for each model.
 *
 * The figure lives in a shadow root, so that neither the page's style nor the
 * ids of other diagrams reach it; which of its two inks it wears comes in
 * through `color-scheme` (see theme.css).
 */

import css from "./board.css";
import { BringBack } from "./bringback.js";
import { clientName, guardedIn, roomIn } from "./room.js";
import { Sync } from "./sync.js";
import { BoardView } from "./view.js";
import { sayer } from "./words.js";

/** What changes how the same position looks. */
const LOOKS = ["change:turned", "change:piece_letters"];

export default () => {
  /** @type {Sync | undefined} one conversation for all views of the model */
  let sync;

  /** @param {{model: any}} given */
  const initialize = ({ model }) => {
    sync = new Sync(model, clientName());
  };

  /** @param {{model: any, el: HTMLElement}} given */
  const render = ({ model, el }) => {
    const room = roomIn(el, css);
    const say = sayer(model.get("words") ?? {});
    const conversation = (sync ??= new Sync(model, clientName()));
    const guarded = guardedIn(room, say);
    let close = () => {};
    guarded(() => {
      const figure = document.createElement("figure");
      room.append(figure);
      const view = new BoardView({ model, sync: conversation, say, figure });
      const bringBack = new BringBack({ sync: conversation, say, caption: view.caption });
      const update = guarded(() => {
        view.update();
        bringBack.update();
      });
      const answer = guarded((/** @type {import("./sync.js").Answer} */ given) => view.answer(given));
      const redraw = guarded(() => view.draw());
      conversation.listeners.add(update);
      conversation.answered.add(answer);
      for (const change of LOOKS) model.on(change, redraw);
      close = () => {
        view.close();
        conversation.listeners.delete(update);
        conversation.answered.delete(answer);
        for (const change of LOOKS) model.off(change, redraw);
      };
    })();
    return () => close();
  };

  return { initialize, render };
};

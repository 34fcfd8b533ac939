// @ts-check
/**
 * The live board's entry: what anywidget loads, once for each model.
 *
 * The figure lives in a shadow root, so that neither the page's style nor the
 * ids of other diagrams reach it; which of its two inks it wears comes in
 * through `color-scheme` (see theme.css).
 */

import css from "./board.css";
import { inkRules } from "./pen.js";
import { Sync } from "./sync.js";
import { BoardView } from "./view.js";
import { sayer } from "./words.js";

/** @returns {string} a name that no other page has */
const clientName = () => Math.random().toString(36).slice(2, 10);

/** @param {HTMLElement} el @returns {ShadowRoot} an empty room of its own within the output */
function roomIn(el) {
  const host = document.createElement("div");
  host.className = "chessnb-live";
  // JupyterLab acts on single letters and arrows wherever the focus is, unless told not to.
  host.dataset.lmSuppressShortcuts = "true";
  el.append(host);
  const room = host.attachShadow({ mode: "open" });
  const style = document.createElement("style");
  style.textContent = css + inkRules((dark, light) => `light-dark(${light},${dark})`);
  room.append(style);
  return room;
}

/** @param {ParentNode} room @param {unknown} error @param {import("./words.js").Say} say */
function showFailure(room, error, say) {
  console.error(error);
  const note = room.querySelector(".failure") ?? document.createElement("p");
  note.className = "failure note wrong";
  note.setAttribute("role", "alert");
  note.textContent = say("failed", { error: String(error) });
  room.append(note);
}

export default () => {
  /** @type {Sync | undefined} one conversation for all views of the model */
  let sync;

  /** @param {{model: any}} given */
  const initialize = ({ model }) => {
    sync = new Sync(model, clientName());
  };

  /** @param {{model: any, el: HTMLElement}} given */
  const render = ({ model, el }) => {
    const room = roomIn(el);
    const say = sayer(model.get("words") ?? {});
    const conversation = (sync ??= new Sync(model, clientName()));
    /** @template {any[]} T @param {(...given: T) => void} act @returns {(...given: T) => void} */
    const guarded = (act) => (...given) => {
      try {
        act(...given);
      } catch (error) {
        showFailure(room, error, say);
      }
    };
    let close = () => {};
    guarded(() => {
      const figure = document.createElement("figure");
      room.append(figure);
      const view = new BoardView({ model, sync: conversation, say, figure });
      const update = guarded(() => view.update());
      const answer = guarded((/** @type {import("./sync.js").Answer} */ given) => view.answer(given));
      const turned = guarded(() => view.draw());
      conversation.listeners.add(update);
      conversation.answered.add(answer);
      model.on("change:turned", turned);
      close = () => {
        view.close();
        conversation.listeners.delete(update);
        conversation.answered.delete(answer);
        model.off("change:turned", turned);
      };
    })();
    return () => close();
  };

  return { initialize, render };
};

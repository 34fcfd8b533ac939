// @ts-check
/**
 * A room of its own on the page: a shadow root with its style sheet and the ink's colours.
 */

import { inkNames, inkRules } from "./pen.js";

/** @returns {string} a name that no other page has */
export const clientName = () => Math.random().toString(36).slice(2, 10);

/** @param {HTMLElement} el @param {string} css @param {string} [sort] a class of the room's own @returns {ShadowRoot} an empty room of its own within the output */
export function roomIn(el, css, sort = "") {
  const host = document.createElement("div");
  host.className = `chessnb-live ${sort}`.trim();
  // JupyterLab acts on single letters and arrows wherever the focus is, unless told not to.
  host.dataset.lmSuppressShortcuts = "true";
  el.append(host);
  const room = host.attachShadow({ mode: "open" });
  const style = document.createElement("style");
  style.textContent = inkNames() + css + inkRules((dark, light) => `light-dark(${light},${dark})`);
  room.append(style);
  return room;
}

/** @param {ParentNode} room @param {unknown} error @param {import("./words.js").Say} say */
export function showFailure(room, error, say) {
  console.error(error);
  const note = room.querySelector(".failure") ?? document.createElement("p");
  note.className = "failure note wrong";
  note.setAttribute("role", "alert");
  note.textContent = say("failed", { error: String(error) });
  room.append(note);
}

/**
 * How a room's own acts are made: what goes wrong in one is told in the room.
 * @param {ShadowRoot} room @param {import("./words.js").Say} say
 */
export const guardedIn = (room, say) =>
  /** @template {any[]} T @param {(...given: T) => void} act @returns {(...given: T) => void} */
  (act) => (...given) => {
    try {
      act(...given);
    } catch (error) {
      showFailure(room, error, say);
    }
  };

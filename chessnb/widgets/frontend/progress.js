// @ts-check
/** A note at the foot of the page while a long search runs; it belongs to no output. */

import { INK } from "./pen.js";

const { ink, paper } = INK.themes.light;
const STYLE =
  "position:fixed;left:4rem;bottom:2.2rem;z-index:1000;padding:0.2rem 0.7rem;" +
  `background:${paper};color:${ink};border:1px solid ${ink};font:1rem Georgia,serif`;

export default () => {
  /** @param {{model: any}} given */
  const initialize = ({ model }) => {
    const note = document.createElement("div");
    note.setAttribute("role", "status");
    note.setAttribute("style", STYLE);
    const show = () => {
      const text = model.get("text");
      note.textContent = text;
      if (text && !note.isConnected) document.body.append(note);
      if (!text) note.remove();
    };
    model.on("change:text", show);
    show();
    return () => note.remove();
  };
  return { initialize, render: () => {} };
};

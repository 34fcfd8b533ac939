// @ts-check
/** The branch explorer's entry: what anywidget loads, once for each model. */

import { Questions } from "./asking.js";
import css from "./board.css";
import explorerCss from "./explorer.css";
import { element } from "./elements.js";
import { ExplorerView } from "./explorerview.js";
import { teller } from "./explorerwords.js";
import { clientName, guardedIn, roomIn } from "./room.js";
import { sayer } from "./words.js";

export default () => {
  /** @param {{model: any, el: HTMLElement}} given */
  const render = ({ model, el }) => {
    const room = roomIn(el, css + explorerCss);
    const words = model.get("words") ?? {};
    const say = sayer(words);
    const guarded = guardedIn(room, say);
    let close = () => {};
    guarded(() => {
      const whole = element("div", "explorer");
      room.append(element("div", "page", whole));
      // Each view asks for itself: two views of one model may stand at different places.
      const questions = new Questions(model, clientName());
      const view = new ExplorerView({ model, questions, say, tell: teller(words), whole });
      const revealed = guarded(() => view.revealed());
      const turned = guarded(() => view.board.draw());
      model.on("change:tree", revealed);
      const relettered = guarded(() => view.relettered());
      model.on("change:piece_letters", relettered);
      model.on("change:turned", turned);
      close = () => {
        model.off("change:tree", revealed);
        model.off("change:piece_letters", relettered);
        model.off("change:turned", turned);
        view.close();
      };
    })();
    return () => close();
  };

  return { render };
};

// @ts-check
/** The live page's entry: what anywidget loads, once for each model. */

import { Questions } from "./asking.js";
import css from "./board.css";
import explorerCss from "./explorer.css";
import spreadCss from "./spread.css";
import { element } from "./elements.js";
import { teller } from "./explorerwords.js";
import { questionTeller } from "./questionwords.js";
import { clientName, guardedIn, roomIn } from "./room.js";
import { SpreadView } from "./spreadview.js";
import { spreadTeller } from "./spreadwords.js";
import { sayer } from "./words.js";

export default () => {
  /** @param {{model: any, el: HTMLElement}} given */
  const render = ({ model, el }) => {
    const room = roomIn(el, css + explorerCss + spreadCss, "chessnb-page");
    const words = model.get("words") ?? {};
    const say = sayer(words);
    const guarded = guardedIn(room, say);
    let close = () => {};
    guarded(() => {
      const whole = element("div", "explorer spread");
      room.append(element("div", "page", whole));
      const questions = new Questions(model, clientName());
      const view = new SpreadView({ model, questions, say, tell: teller(words), spreadTell: spreadTeller(words),
        questionTell: questionTeller(words), whole });
      // The page around it may keep back what would tell the answer.
      const open = () => room.host.classList.toggle("asked", !model.get("spread").told);
      open();
      const changes = {
        tree: guarded(() => view.revealed()),
        spread: guarded(() => {
          view.told();
          open();
        }),
        piece_letters: guarded(() => view.relettered()),
        turned: guarded(() => view.board.draw()),
      };
      for (const [name, act] of Object.entries(changes)) model.on(`change:${name}`, act);
      close = () => {
        for (const [name, act] of Object.entries(changes)) model.off(`change:${name}`, act);
        view.close();
      };
    })();
    return () => close();
  };

  return { render };
};

// @ts-check
/** The line that stands in the place of a step which is not open yet, and a quiet word beside it. */

import css from "./board.css";
import { element, word } from "./elements.js";
import gateCss from "./gate.css";
import { roomIn } from "./room.js";

export default () => {
  /** @param {{model: any, el: HTMLElement}} given */
  const render = ({ model, el }) => {
    const room = roomIn(el, css + gateCss, "chessnb-gate");
    const open = word(model.get("label"), () => model.send({ kind: "open" }), "open");
    const line = element("p", "waits", `${model.get("sentence")} `, open);
    room.append(element("div", "page", element("div", "gate", line)));
  };

  return { render };
};

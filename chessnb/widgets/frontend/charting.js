// @ts-check
/** The live chart's entry: what anywidget loads, once for each model. */

import css from "./board.css";
import explorerCss from "./explorer.css";
import chartCss from "./chart.css";
import { ChartView } from "./chartview.js";
import { chartTeller } from "./chartwords.js";
import { element } from "./elements.js";
import { roomIn, showFailure } from "./room.js";
import { sayer } from "./words.js";

export default () => {
  /** @param {{model: any, el: HTMLElement}} given */
  const render = ({ model, el }) => {
    const room = roomIn(el, css + explorerCss + chartCss);
    const words = model.get("words") ?? {};
    const say = sayer(words);
    try {
      const whole = element("div", "explorer");
      room.append(element("div", "page", whole));
      const view = new ChartView({ model, say, tell: chartTeller(words), whole });
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

// @ts-check
/** The live chart's entry: what anywidget loads, once for each model. */

import css from "./board.css";
import chartCss from "./chart.css";
import { ChartView } from "./chartview.js";
import { chartTeller } from "./chartwords.js";
import explorerCss from "./explorer.css";
import { mounted } from "./mounting.js";

export default () =>
  mounted(
    css + explorerCss + chartCss,
    ({ model, say, words, whole }) =>
      new ChartView({ model, say, tell: chartTeller(words), whole }),
  );

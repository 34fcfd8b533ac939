// @ts-check
/** The question's entry: what anywidget loads, once for each model. */

import css from "./board.css";
import explorerCss from "./explorer.css";
import questionCss from "./question.css";
import { mounted } from "./mounting.js";
import { QuestionView } from "./questionview.js";
import { questionTeller } from "./questionwords.js";

export default () =>
  mounted(
    css + explorerCss + questionCss,
    ({ model, say, words, whole }) => new QuestionView({ model, say, tell: questionTeller(words), whole }),
  );

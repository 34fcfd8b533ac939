// @ts-check
/** The reply explorer's entry: what anywidget loads, once for each model. */

import css from "./board.css";
import explorerCss from "./explorer.css";
import { mounted } from "./mounting.js";
import { ReplyView } from "./replyview.js";
import { replyTeller } from "./replywords.js";

export default () =>
  mounted(
    css + explorerCss,
    ({ model, say, words, whole }) =>
      new ReplyView({ model, say, tell: replyTeller(words), whole }),
  );

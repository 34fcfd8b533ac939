// @ts-check
/** The motif tags' entry: what anywidget loads, once for each model. */

import css from "./board.css";
import explorerCss from "./explorer.css";
import { mounted } from "./mounting.js";
import { TagView } from "./tagview.js";
import { tagTeller } from "./tagwords.js";

export default () =>
  mounted(
    css + explorerCss,
    ({ model, say, words, whole }) => new TagView({ model, say, tell: tagTeller(words), whole }),
  );

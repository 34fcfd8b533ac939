// @ts-check
/** The page of a lesson while it is set up: says how far it is, and shows it when its boards stand. */

const lesson = (() => {
  /** So long the page waits for its boards before it shows what there is; in milliseconds. */
  const PATIENCE_MS = 30_000;
  const LOOK_EVERY_MS = 60;
  /** From this width on the contents stand open in the margin. */
  const WIDE = matchMedia("(min-width: 75rem)");
  const { body } = document;

  /** @param {string} words */
  const progress = (words) => {
    const said = document.getElementById("progress");
    if (said) said.textContent = words;
  };

  /** @returns {boolean} whether every output stands where its text was sent */
  const areSetUp = () =>
    !document.querySelector('script[type="application/vnd.voila.cell-output+json"]') &&
    [...document.querySelectorAll(".shown")].every((one) => one.querySelector(".jp-OutputArea-output")?.childElementCount);

  /** A stop's heading and words stand at the left of its board, where there is room for both. */
  const ROOM_PX = 700;
  const GAP_PX = 20;

  /**
   * @param {Element} page the cell of a page
   * @returns {HTMLElement[]} the cells of words that belong to it: from its heading on
   */
  const wordsBefore = (page) => {
    const found = [];
    let one = page.previousElementSibling;
    while (one instanceof HTMLElement && one.matches("section.markdown")) {
      found.unshift(one);
      if (one.querySelector("h2")) return found;
      one = one.previousElementSibling;
    }
    return [];
  };

  /** @param {HTMLElement} page @param {HTMLElement[]} words @param {Element} figure */
  const placeBeside = (page, words, figure) => {
    const heading = words[0]?.querySelector("h2");
    if (!heading) return;
    page.style.setProperty("--above", "0px");
    for (const one of words) one.style.removeProperty("--room");
    const left = figure.getBoundingClientRect().left - page.getBoundingClientRect().left;
    if (page.clientWidth >= ROOM_PX && left > 0) {
      for (const one of words) one.style.setProperty("--room", `${Math.floor(left - GAP_PX)}px`);
      const top = heading.getBoundingClientRect().top + parseFloat(getComputedStyle(heading).paddingTop);
      page.style.setProperty("--above", `${Math.max(0, Math.floor(page.getBoundingClientRect().top - top))}px`);
    }
  };

  /** @param {Element} page @returns {boolean} whether its board is there, and its words beside it */
  const putWordsBeside = (page) => {
    const figure = page.querySelector(".chessnb-page")?.shadowRoot?.querySelector("figure");
    const words = wordsBefore(page);
    if (!(page instanceof HTMLElement) || !figure) return false;
    const place = () => placeBeside(page, words, figure);
    const watching = new ResizeObserver(() => requestAnimationFrame(place));
    for (const one of words) watching.observe(one);
    addEventListener("resize", place);
    place();
    return true;
  };

  /** Boards are drawn one after the other, some after the page is shown. */
  const putAllWordsBeside = () => {
    let waiting = [...document.querySelectorAll("section.code")];
    const since = performance.now();
    const timer = setInterval(() => {
      waiting = waiting.filter((page) => !putWordsBeside(page));
      if (!waiting.length || performance.now() - since > PATIENCE_MS) clearInterval(timer);
    }, LOOK_EVERY_MS);
  };

  const show = () => {
    document.getElementById("waiting")?.remove();
    document.body.classList.add("ready");
    putAllWordsBeside();
    if (location.hash) document.querySelector(location.hash)?.scrollIntoView();
  };

  const written = () => {
    const since = performance.now();
    const timer = setInterval(() => {
      if (!areSetUp() && performance.now() - since < PATIENCE_MS) return;
      clearInterval(timer);
      show();
    }, LOOK_EVERY_MS);
  };

  const fold = () => {
    const contents = document.querySelector("nav.contents details");
    if (contents) contents.toggleAttribute("open", WIDE.matches);
  };
  document.addEventListener("DOMContentLoaded", fold);
  WIDE.addEventListener("change", fold);
  document.addEventListener("click", (event) => {
    const { target } = event;
    if (target instanceof Element && target.closest("nav.contents a") && !WIDE.matches) fold();
  });

  return { progress, written };
})();

// voila calls these; the page has its own words.
Object.assign(window, { lesson, voila_heartbeat() {}, voila_finish() {} });

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

  const show = () => {
    document.getElementById("waiting")?.remove();
    document.body.classList.add("ready");
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

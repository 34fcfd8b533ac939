// @ts-check
/** A word to press: the only kind of button there is. */

/** @typedef {import("./words.js").Word} Word */
/** @typedef {{enabled?: boolean, pressed?: boolean, shown?: boolean, text?: string}} Standing what is left out stays */

/**
 * @param {string} text
 * @param {() => void} act not called while the word is faint
 * @returns {HTMLButtonElement}
 */
export function wordButton(text, act) {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = text;
  button.addEventListener("click", () => {
    if (button.getAttribute("aria-disabled") !== "true") act();
  });
  return button;
}

/**
 * A faint word keeps its place and the focus; a pressed one is ringed.
 * @param {HTMLButtonElement} button @param {Standing} standing
 */
export function setWord(button, { enabled, pressed, shown, text }) {
  if (enabled !== undefined) button.setAttribute("aria-disabled", String(!enabled));
  if (pressed !== undefined) button.setAttribute("aria-pressed", String(pressed));
  if (shown !== undefined) button.hidden = !shown;
  if (text !== undefined && button.textContent !== text) button.textContent = text;
}

/**
 * Words of which some are ringed, with a name before them.
 * @param {string} name
 * @param {HTMLButtonElement[]} buttons
 * @returns {HTMLElement}
 */
export function wordGroup(name, buttons) {
  const group = document.createElement("span");
  group.className = "words group";
  group.setAttribute("role", "group");
  group.setAttribute("aria-label", name);
  const label = document.createElement("span");
  label.textContent = name;
  label.setAttribute("aria-hidden", "true");
  group.append(label, ...buttons);
  return group;
}

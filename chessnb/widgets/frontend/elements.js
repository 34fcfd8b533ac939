// @ts-check
/** Small parts that the explorer's sections are made of: words to press, lines of text. */

import { wordButton } from "./button.js";

/**
 * A word to press.
 * @param {string} text
 * @param {() => void} act
 * @param {string} [action] a name for style sheets and tests
 * @returns {HTMLButtonElement}
 */
export function word(text, act, action = "") {
  const button = wordButton(text, act);
  if (action) button.dataset.action = action;
  return button;
}

/**
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag
 * @param {string} className
 * @param {...(Node | string)} children
 * @returns {HTMLElementTagNameMap[T]}
 */
export function element(tag, className, ...children) {
  const made = document.createElement(tag);
  if (className) made.className = className;
  made.append(...children);
  return made;
}

/**
 * Enter in a field acts, whatever the page around it does with that key.
 * @param {HTMLInputElement} input
 * @param {(text: string) => void} act
 */
export function onEnter(input, act) {
  input.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.isComposing) return;
    event.preventDefault();
    event.stopPropagation();
    act(input.value.trim());
  });
}

/**
 * Copy a text; where the browser refuses, the field that shows it is selected.
 * @param {string} text
 * @param {HTMLTextAreaElement} field which shows it
 * @returns {Promise<boolean>} whether it was copied
 */
export async function copy(text, field) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    field.focus();
    field.select();
    return false;
  }
}

// @ts-check
/** The hand: mouse, pen and finger on the board; pressing, dragging, letting go. */

/** A press that moves less than this is a click; in CSS pixels. */
export const STEADY = 5;

/**
 * What the hand does with the squares: play, draw, set up.
 * @typedef {object} Tool
 * @property {() => number} lifted the square whose piece is in hand, or where a stroke begins, or -1
 * @property {(square: number) => boolean} movable whether a drag may begin there
 * @property {(square: number) => void} press as Enter does: take, put, or say why not
 * @property {(square: number) => void} lift a drag may begin
 * @property {(from: number, place: import("./field.js").Place) => void} carry it goes on
 * @property {(from: number, to: number) => void} drop it ends; `to` may be `from`, and is -1 outside the board
 * @property {(square: number, wasLifted: boolean) => void} rest the pointer went down and up without a drag
 * @property {() => boolean} putBack drop what is in hand; whether there was anything
 * @property {(square: number, key: string) => boolean} [key] another key on a square; whether it meant something
 * @property {(text: string) => void} typed a text was typed into the caption's field
 * @property {() => void} begin it is taken in hand
 * @property {() => void} end it is put away
 * @property {() => Partial<import("./field.js").Picture>} picture what it shows besides the position
 * @property {() => void} update its own words follow what is shown
 */

/**
 * Let a tool be used by pointer.
 * @param {object} reach
 * @param {import("./field.js").Field} reach.field
 * @param {import("./grid.js").Grid} reach.grid
 * @param {() => Tool} reach.tool the one in use
 */
export function useHand({ field, grid, tool }) {
  /** @type {{id: number, tool: Tool, from: number, x: number, y: number, dragging: boolean, wasLifted: boolean} | null} */
  let held = null;
  /** A square where no drag may begin, on which the pointer went down. */
  let pressed = -1;

  /** @param {PointerEvent} event */
  const down = (event) => {
    if (event.button !== 0 || !event.isPrimary || held) return;
    const { square } = field.at(event.clientX, event.clientY);
    if (square < 0) return;
    const inUse = tool();
    pressed = inUse.movable(square) ? -1 : square;
    if (pressed >= 0) return;
    held = {
      id: event.pointerId, tool: inUse, from: square, x: event.clientX, y: event.clientY, dragging: false,
      wasLifted: inUse.lifted() === square,
    };
    grid.element.setPointerCapture(event.pointerId);
    if (!held.wasLifted) inUse.lift(square);
  };

  /** @param {PointerEvent} event */
  const move = (event) => {
    if (event.pointerId !== held?.id) return;
    held.dragging ||= Math.hypot(event.clientX - held.x, event.clientY - held.y) >= STEADY;
    if (!held.dragging) return;
    grid.element.parentElement?.classList.add("dragging");
    held.tool.carry(held.from, field.at(event.clientX, event.clientY));
  };

  /** @param {PointerEvent} event */
  const up = (event) => {
    if (event.pointerId !== held?.id) return;
    const { tool: inUse, from, dragging, wasLifted } = held;
    letGo();
    if (dragging) inUse.drop(from, field.at(event.clientX, event.clientY).square);
    else inUse.rest(from, wasLifted);
  };

  // Putting waits for the click: by then the browser has moved the focus to the
  // square, so that it can go on to the choice of a piece; and a finger that
  // scrolls the page never clicks. A screen reader's click has no pointer.
  /** @param {MouseEvent} event */
  const click = (event) => {
    const square = grid.squareOf(event.target);
    if (square >= 0 && (event.detail === 0 || square === pressed)) tool().press(square);
    pressed = -1;
  };

  const letGo = () => {
    held = null;
    grid.element.parentElement?.classList.remove("dragging");
  };

  /** @param {PointerEvent} event */
  const cancel = (event) => {
    if (event.pointerId !== held?.id) return;
    const inUse = held.tool;
    letGo();
    inUse.putBack();
  };

  grid.element.addEventListener("pointerdown", down);
  grid.element.addEventListener("pointermove", move);
  grid.element.addEventListener("pointerup", up);
  grid.element.addEventListener("pointercancel", cancel);
  grid.element.addEventListener("click", click);
}

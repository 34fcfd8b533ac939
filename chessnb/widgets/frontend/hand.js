// @ts-check
/** The hand: mouse, pen and finger on the board; pressing, dragging, letting go. */

/** A press that moves less than this is a click; in CSS pixels. */
const STEADY = 5;

/**
 * @typedef {object} Reach
 * @property {import("./field.js").Field} field
 * @property {import("./grid.js").Grid} grid
 * @property {() => number} lifted the square whose man is in hand, or -1
 * @property {(square: number) => boolean} movable
 * @property {(square: number) => void} press as Enter does
 * @property {(square: number) => void} lift
 * @property {(from: number, to: number) => void} drop
 * @property {() => boolean} putBack
 */

/**
 * Let men be moved by pointer.
 * @param {Reach} reach
 */
export function useHand(reach) {
  const { field, grid } = reach;
  /** @type {{id: number, from: number, x: number, y: number, dragging: boolean, wasLifted: boolean} | null} */
  let held = null;
  /** A square without a movable man on which the pointer went down. */
  let pressed = -1;

  /** @param {PointerEvent} event */
  const down = (event) => {
    if (event.button !== 0 || !event.isPrimary || held) return;
    const { square } = field.at(event.clientX, event.clientY);
    if (square < 0) return;
    pressed = reach.movable(square) ? -1 : square;
    if (pressed >= 0) return;
    held = {
      id: event.pointerId, from: square, x: event.clientX, y: event.clientY, dragging: false,
      wasLifted: reach.lifted() === square,
    };
    grid.element.setPointerCapture(event.pointerId);
    if (!held.wasLifted) reach.lift(square);
  };

  /** @param {PointerEvent} event */
  const move = (event) => {
    if (event.pointerId !== held?.id) return;
    const far = Math.hypot(event.clientX - held.x, event.clientY - held.y) >= STEADY;
    held.dragging ||= far;
    if (!held.dragging) return;
    grid.element.parentElement?.classList.add("dragging");
    const { x, y } = field.at(event.clientX, event.clientY);
    const [middleX, middleY] = field.pen.middle(held.from);
    field.place(held.from, x - middleX, y - middleY);
  };

  /** @param {PointerEvent} event */
  const up = (event) => {
    if (event.pointerId !== held?.id) return;
    const { from, dragging, wasLifted } = held;
    letGo();
    if (!dragging) {
      if (wasLifted) reach.putBack();
      return;
    }
    const { square } = field.at(event.clientX, event.clientY);
    if (square < 0 || square === from) reach.putBack();
    else reach.drop(from, square);
  };

  // Putting waits for the click: by then the browser has moved the focus to the
  // square, so that it can go on to the choice of a piece; and a finger that
  // scrolls the page never clicks. A screen reader's click has no pointer.
  /** @param {MouseEvent} event */
  const click = (event) => {
    const square = grid.squareOf(event.target);
    if (square >= 0 && (event.detail === 0 || square === pressed)) reach.press(square);
    pressed = -1;
  };

  const letGo = () => {
    held = null;
    grid.element.parentElement?.classList.remove("dragging");
  };

  /** @param {PointerEvent} event */
  const cancel = (event) => {
    if (event.pointerId !== held?.id) return;
    letGo();
    reach.putBack();
  };

  grid.element.addEventListener("pointerdown", down);
  grid.element.addEventListener("pointermove", move);
  grid.element.addEventListener("pointerup", up);
  grid.element.addEventListener("pointercancel", cancel);
  grid.element.addEventListener("click", click);
}

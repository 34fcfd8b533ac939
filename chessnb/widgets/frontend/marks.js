// @ts-check
/** Pen strokes on a diagram; the twin of `chessnb/diagrams/marks.py`. */

import { INK, number } from "./pen.js";
import { squareOf } from "./rules.js";

/** @typedef {import("./pen.js").Pen} Pen */
/** @typedef {import("./pen.js").Role} Role */
/** @typedef {{role: Role, square: string, to?: string | null}} Mark */
/** @typedef {any} Ink a shape and its measures, as `ink.json` has them */

export const ROLES = /** @type {Role[]} */ (Object.keys(INK.marks));
/** The roles that go from one square to another. */
export const LINES = ROLES.filter((role) => INK.marks[role].shape === "stroke");
/** The roles that stay on one square. */
export const SINGLES = ROLES.filter((role) => !LINES.includes(role));

const FROM_BELOW = [...ROLES].sort((one, other) => INK.marks[one].layer - INK.marks[other].layer);
const UNDER = FROM_BELOW.filter((role) => INK.marks[role].layer < 0);
const OVER = FROM_BELOW.filter((role) => INK.marks[role].layer > 0);

/** @param {Pen} pen @param {Mark[]} marks @returns {string} the marks under the pieces */
export const underPieces = (pen, marks) => ofRoles(pen, marks, UNDER);

/** @param {Pen} pen @param {Mark[]} marks @returns {string} the lines of force over the pieces */
export const overPieces = (pen, marks) => ofRoles(pen, marks, OVER);

/** @param {Pen} pen @param {"last" | "check"} name @param {number} square @returns {string} what the position says of it */
export const eventOn = (pen, name, square) => inked(pen, name, INK.events[name], [square]);

/** @param {Pen} pen @param {Mark[]} marks @param {Role[]} roles */
const ofRoles = (pen, marks, roles) =>
  roles
    .flatMap((role) => marks.filter((mark) => mark.role === role))
    .map(({ role, square, to }) => inked(pen, role, INK.marks[role], (to ? [square, to] : [square]).map(squareOf)))
    .join("");

/** @param {Pen} pen @param {string} name @param {Ink} ink @param {number[]} squares @returns {string} each path on its rim of paper */
function inked(pen, name, ink, squares) {
  const { shape, width, dash } = ink;
  const rim = pen.paint({ stroke: "paper", width: width + 2 * INK.casing });
  const line = pen.paint({ stroke: name, width, dash });
  return SHAPES[shape](pen, ink, squares).map((path) => `<path d="${path}"${rim}/><path d="${path}"${line}/>`).join("");
}

/** @typedef {(pen: Pen, ink: Ink, squares: number[]) => string[]} Shape what it is made of */

/** @type {Shape} */
function ring(pen, { radius: outer, inner }, [square]) {
  const [x, y] = pen.middle(square);
  return [outer, inner].filter((radius) => radius !== undefined).map((radius) => {
    const across = number(2 * radius);
    const arc = `a${number(radius)} ${number(radius)} 0 1 1`;
    return `M${number(x - radius)} ${number(y)}${arc} ${across} 0${arc} -${across} 0Z`;
  });
}

/** @type {Shape} */
function ticks(pen, { inset: near, arm }, [square]) {
  const [x, y] = pen.corner(square);
  const far = INK.board.square - near;
  const corners = [[near, near, 1, 1], [far, near, -1, 1], [far, far, -1, -1], [near, far, 1, -1]];
  const path = corners.map(
    ([across, down, acrossWay, downWay]) =>
      `M${number(x + across)} ${number(y + down + arm * downWay)}v${number(-arm * downWay)}h${number(arm * acrossWay)}`);
  return [path.join("")];
}

/** @type {Shape} */
function outline(pen, { inset }, [square]) {
  const [x, y] = pen.corner(square);
  const side = number(INK.board.square - 2 * inset);
  return [`M${number(x + inset)} ${number(y + inset)}h${side}v${side}h-${side}Z`];
}

/** @type {Shape} */
function underline(pen, { inset, drop }, [square]) {
  const [x, y] = pen.corner(square);
  return [`M${number(x + inset)} ${number(y + drop)}h${number(INK.board.square - 2 * inset)}`];
}

/** @type {Shape} */
function stroke(pen, { start, stop, head, spread }, [square, to]) {
  const [x1, y1] = pen.middle(square);
  const [x2, y2] = pen.middle(to);
  const length = Math.sqrt((x2 - x1) * (x2 - x1) + (y2 - y1) * (y2 - y1));
  const [along, down] = [(x2 - x1) / length, (y2 - y1) / length];
  const [tipX, tipY] = [x2 - along * stop, y2 - down * stop];
  let path = `M${number(x1 + along * start)} ${number(y1 + down * start)}L${number(tipX)} ${number(tipY)}`;
  if (head !== undefined) {
    const [backX, backY] = [tipX - along * head, tipY - down * head];
    const [asideX, asideY] = [-down * spread, along * spread];
    path +=
      `M${number(backX + asideX)} ${number(backY + asideY)}L${number(tipX)} ${number(tipY)}` +
      `L${number(backX - asideX)} ${number(backY - asideY)}`;
  }
  return [path];
}

/** @type {Record<string, Shape>} */
const SHAPES = { ring, ticks, outline, underline, stroke };

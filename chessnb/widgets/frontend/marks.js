// @ts-check
/** Pen strokes on a diagram; the twin of `chessnb/diagram/marks.py`. */

import { INK, number } from "./pen.js";
import { squareOf } from "./rules.js";

/** @typedef {import("./pen.js").Pen} Pen */
/** @typedef {"actor" | "target" | "force" | "blocked" | "lure"} Role */
/** @typedef {{role: Role, square: string, to?: string | null}} Mark */

/** @param {Pen} pen @param {Mark[]} marks @returns {string} the marks under the men */
export const underMen = (pen, marks) => ofRoles(pen, marks, ["lure", "blocked", "target", "actor"]);

/** @param {Pen} pen @param {Mark[]} marks @returns {string} the lines of force over the men */
export const overMen = (pen, marks) => ofRoles(pen, marks, ["force"]);

/** @param {Pen} pen @param {Mark[]} marks @param {Role[]} roles */
const ofRoles = (pen, marks, roles) =>
  roles
    .flatMap((role) => marks.filter((mark) => mark.role === role))
    .map((mark) => SHAPES[mark.role](pen, mark))
    .join("");

/** @param {Pen} pen @param {number} square @returns {string} the line under a square of the last move */
export function underline(pen, square) {
  const { inset, drop } = INK.marks.last;
  const [x, y] = pen.corner(square);
  return stroke(pen, "last", `M${number(x + inset)} ${number(y + drop)}h${number(INK.board.square - 2 * inset)}`);
}

/** @param {Pen} pen @param {number} square @returns {string} the two rings round a king in check */
export const doubleRing = (pen, square) =>
  circle(pen, "check", square, INK.marks.check.radius) + circle(pen, "check", square, INK.marks.check.inner);

/** @param {Pen} pen @param {Mark} mark */
const ring = (pen, mark) => circle(pen, "actor", squareOf(mark.square), INK.marks.actor.radius);

/** @param {Pen} pen @param {string} role @param {number} square @param {number} radius */
function circle(pen, role, square, radius) {
  const [x, y] = pen.middle(square);
  const across = number(2 * radius);
  const arc = `a${number(radius)} ${number(radius)} 0 1 1`;
  return stroke(pen, role, `M${number(x - radius)} ${number(y)}${arc} ${across} 0${arc} -${across} 0Z`);
}

/** @param {Pen} pen @param {Mark} mark */
function ticks(pen, mark) {
  const { inset: near, arm } = INK.marks.target;
  const [x, y] = pen.corner(squareOf(mark.square));
  const far = INK.board.square - near;
  const corners = [[near, near, 1, 1], [far, near, -1, 1], [far, far, -1, -1], [near, far, 1, -1]];
  const path = corners.map(
    ([across, down, acrossWay, downWay]) =>
      `M${number(x + across)} ${number(y + down + arm * downWay)}v${number(-arm * downWay)}h${number(arm * acrossWay)}`);
  return stroke(pen, "target", path.join(""));
}

/** @param {Pen} pen @param {Mark} mark */
function dots(pen, mark) {
  const { inset } = INK.marks.lure;
  const [x, y] = pen.corner(squareOf(mark.square));
  const side = number(INK.board.square - 2 * inset);
  return stroke(pen, "lure", `M${number(x + inset)} ${number(y + inset)}h${side}v${side}h-${side}Z`);
}

/** @param {Pen} pen @param {Mark} mark */
function line(pen, mark) {
  const { start, stop, head, spread } = INK.marks[mark.role];
  const [x1, y1] = pen.middle(squareOf(mark.square));
  const [x2, y2] = pen.middle(squareOf(/** @type {string} */ (mark.to)));
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
  return stroke(pen, mark.role, path);
}

/** @param {Pen} pen @param {string} role @param {string} path @returns {string} the path on its rim of paper */
function stroke(pen, role, path) {
  const { width, dash } = INK.marks[role];
  const rim = pen.paint({ stroke: "paper", width: width + 2 * INK.marks.casing });
  return `<path d="${path}"${rim}/><path d="${path}"${pen.paint({ stroke: role, width, dash })}/>`;
}

/** @type {Record<Role, (pen: Pen, mark: Mark) => string>} */
const SHAPES = { actor: ring, target: ticks, force: line, blocked: line, lure: dots };

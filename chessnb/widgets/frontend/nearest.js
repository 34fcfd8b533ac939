// @ts-check
/** Which point of a chart a place of its drawing belongs to. */

/**
 * The point that stands nearest to a place of the drawing, along the moves.
 * @param {{place: number[]}[]} points @param {number} x in units of the drawing @returns {number}
 */
export function nearest(points, x) {
  let best = 0;
  points.forEach(({ place }, index) => {
    if (Math.abs(place[0] - x) < Math.abs(points[best].place[0] - x)) best = index;
  });
  return best;
}

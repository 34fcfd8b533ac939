// A place on a chart belongs to the point that is nearest along the moves.

import assert from "node:assert/strict";
import test from "node:test";

import { nearest } from "../../chessnb/widgets/frontend/nearest.js";

const POINTS = [{ place: [34, 60] }, { place: [100, 20] }, { place: [300, 60] }];

test("the nearest point along the moves, whatever its height", () => {
  assert.deepEqual([-10, 34, 66, 68, 199, 201, 999].map((x) => nearest(POINTS, x)), [0, 0, 0, 1, 1, 2, 2]);
});

test("half-way between two points it is the earlier one", () => {
  assert.equal(nearest(POINTS, 67), 0);
});

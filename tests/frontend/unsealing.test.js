// The parts of a sealed lesson are opened here as Python has sealed them.

import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import test from "node:test";

import { sha256, unseal } from "../../chessnb/widgets/frontend/unsealing.js";

test("SHA-256 is that of FIPS 180-4, at every edge of a block", () => {
  for (const length of [0, 1, 55, 56, 57, 63, 64, 65, 119, 120, 128, 1000]) {
    const bytes = Uint8Array.from({ length }, (_, at) => (at * 7) % 256);
    assert.equal(Buffer.from(sha256(bytes)).toString("hex"), createHash("sha256").update(bytes).digest("hex"));
  }
});

test("a part that Python sealed is opened", async () => {
  // seal("step 1", ["20... Nf3+", "ü"])
  const sealed = "Q8F93rrASACf1xQN5abhxF7huPR06rLoQrqU6A==";
  assert.deepEqual(await unseal("step 1", sealed), ["20... Nf3+", "ü"]);
});

test("a part under another name, and a damaged one, are refused", async () => {
  const sealed = "Q8F93rrASACf1xQN5abhxF7huPR06rLoQrqU6A==";
  await assert.rejects(unseal("step 2", sealed));
  await assert.rejects(unseal("step 1", sealed.slice(0, -8)));
});

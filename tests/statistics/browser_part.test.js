// The browser's module on the table of intervals beside this file.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { wilson } from "../../builder/site/web/interval.js";

test("Wilson's interval", () => {
  const published = JSON.parse(readFileSync(new URL("intervals.json", import.meta.url), "utf8"));
  assert.ok(published.length > 4);
  for (const [held, of, low, high] of published) {
    const found = wilson(held, of);
    assert.ok(Math.abs(found[0] - low) < 0.000006 && Math.abs(found[1] - high) < 0.000006, `${held} of ${of}: ${found}`);
  }
});

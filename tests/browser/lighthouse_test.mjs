// The page as Lighthouse sees it on an emulated phone. Performance is only reported: graphics are drawn by software here. The slow
// network and processor are real while it loads, not reckoned afterwards: loaded at full speed the page is there before a first
// picture of the words that stand before it, and Lighthouse then finds nothing to measure.
import assert from "node:assert/strict";
import { test } from "node:test";
import lighthouse from "lighthouse";
import { chromium } from "playwright-core";
import { chromiumFlags, serve } from "./site.mjs";

test("Lighthouse finds accessibility and best practices at 95 at least", { timeout: 180000 }, async () => {
  const port = 9381;
  const site = await serve(8260);
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: [...chromiumFlags, "--remote-debugging-port=" + port] });
  try {
    const { lhr } = await lighthouse(site.address, { port, logLevel: "error", throttlingMethod: "devtools", onlyCategories: ["performance", "accessibility", "best-practices"] });
    const score = (category) => (lhr.categories[category].score === null ? NaN : Math.round(100 * lhr.categories[category].score)); // not measured: less than any
    const short = Object.values(lhr.audits).filter((audit) => audit.score !== null && audit.score < 1 && audit.scoreDisplayMode === "binary");
    console.log(`accessibility ${score("accessibility")}, best practices ${score("best-practices")}, performance ${score("performance")}`);
    const why = short.map((audit) => `${audit.id}: ${audit.title}`).join("; ");
    assert.ok(score("accessibility") >= 95, why);
    assert.ok(score("best-practices") >= 95, why);
  } finally {
    await browser.close();
    await site.stop();
  }
});

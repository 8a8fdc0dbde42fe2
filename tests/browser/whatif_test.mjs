// What else changes, on the page: every topic says what the command line says, and can be looked at.
import assert from "node:assert/strict";
import { test } from "node:test";
import { answered, controls, desktop, inChromium, phone, press, still } from "./chromium.mjs";
import { commandLine, shots } from "./site.mjs";

const { open } = inChromium(8195);
const topics = { bends: "Bends", arm: "The arm", lost: "A string breaks, or one is let down", tunings: "Two tunings on one guitar",
  surroundings: "Laid on its back, and warmer", loads: "Strength, neck and screws", intonation: "String height and intonation",
  nut: "Locking the nut, and the fine tuners" };

for (const [name, screen] of [["desktop", desktop], ["phone", phone]])
  test(`on a ${name} each topic opens with the command line's numbers`, async () => {
    const page = await open(screen);
    await answered(page);
    await still(page);
    const told = commandLine("whatif", await page.evaluate(() => window.counterpull.document()));
    for (const folded of ["section.sheet", "section.tuning", "section.readings"])
      if (name === "desktop") await page.evaluate((id) => window.counterpull.operate(id), folded);
    await page.evaluate(() => window.counterpull.operate("section.whatif"));
    await still(page);
    for (const [id, label] of Object.entries(topics)) {
      const section = "section.whatif." + id;
      // Brought into view by its twin having the focus, as from a keyboard, and pressed where it is drawn.
      await page.locator("#mirror").getByRole("button", { name: label, exact: true }).focus();
      await press(page, label);
      const here = (await controls(page)).filter((one) => one.id.startsWith(`whatif.${id}.`));
      assert.ok(here.length > 0, id);
      for (const { label: title, value } of here) {
        assert.ok(told.includes(title), title);
        // Each row, cell by cell, stands in one line of the command line's.
        const lines = told.slice(told.indexOf(title)).split("\n");
        for (const row of value.split("; ")) {
          const numbers = row.match(/[−+]?\d[\d.]*/g) ?? [];
          assert.ok(lines.some((line) => numbers.every((number) => line.includes(number))), row);
        }
      }
      await page.locator("#mirror").getByRole("button", { name: label, exact: true }).blur();
      const top = (await controls(page)).find((one) => one.id === section).rect[1];
      await page.mouse.move(screen.viewport.width - 60, 600);
      await page.mouse.wheel(0, top - (name === "phone" ? 130 : 20));
      await still(page);
      await page.screenshot({ path: `${shots}${name}-whatif-${id}.png` });
      await page.evaluate((one) => window.counterpull.operate(one), section);
      await still(page);
    }
    assert.deepEqual(page.problems, []);
    await page.context().close();
  });

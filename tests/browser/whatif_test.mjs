// What else changes, on the page: every topic says what the command line says, and can be looked at.
import assert from "node:assert/strict";
import { test } from "node:test";
import { controls, desktop, documentOn, inChromium, operate, phone, press, still } from "./chromium.mjs";
import { commandLine, shots } from "./site.mjs";

const { opened } = inChromium(8195);
const topics = { bends: "Bends", arm: "The arm", lost: "A string breaks, or one is let down", tunings: "Two tunings on one guitar",
  surroundings: "Laid on its back, and warmer", loads: "Strength, neck and screws", intonation: "String height and intonation",
  nut: "Locking the nut, and the fine tuners" };

for (const [name, screen] of Object.entries({ desktop, phone }))
  test(`on a ${name} each topic opens with the command line's numbers`, async () => {
    const page = await opened(screen);
    const told = commandLine("whatif", await documentOn(page));
    for (const folded of ["section.sheet", "section.tuning", "section.readings"])
      if (name === "desktop") await operate(page, folded);
    await operate(page, "section.whatif");
    for (const [id, label] of Object.entries(topics)) {
      const section = "section.whatif." + id;
      // Brought into view by its twin having the focus, as from a keyboard, and pressed where it is drawn.
      await page.locator("#mirror").getByRole("button", { name: label, exact: true }).focus();
      const rows = async () => (await controls(page)).filter((one) => one.id.startsWith(`whatif.${id}.`));
      await press(page, label, async () => (await rows()).length > 0);
      const here = await rows();
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
      await operate(page, section);
    }
    assert.deepEqual(page.problems, []);
    await page.context().close();
  });

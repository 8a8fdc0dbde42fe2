// Numbers typed into the page: the field that a phone lays over the drawn one, and going on by keyboard on a desk.
import assert from "node:assert/strict";
import { test } from "node:test";
import { clickAt, controls, desktop, drag, find, inChromium, operate, phone, setup, still, tapOpens } from "./chromium.mjs";
import { placeOf, shots, until, withSecondTry } from "./site.mjs";

const { opened } = inChromium(8230);
const entry = (page) => page.locator("#entry");
const isOpen = (page) => page.evaluate(() => !document.getElementById("entry").hidden);
// Brings a control into sight as the keyboard does: its twin takes the focus for a moment.
async function bring(page, id) {
  const { label } = await find(page, id);
  const nth = (await controls(page)).filter((one) => one.label === label && one.role === "spinbutton").findIndex((one) => one.id === id);
  await page.evaluate(([name, which]) => [...document.querySelectorAll("#mirror input")].filter((part) => part.getAttribute("aria-label") === name)[which].focus(), [label, nth]);
  await still(page);
  await page.evaluate(() => document.activeElement.blur());
  await still(page);
}
// Run in the page: how far the box has ever been from its field in sight, frame by frame, until told to stop.
const watchBox = (id) => {
  window.apart = 0;
  (function look() {
    const box = document.getElementById("entry");
    if (box.hidden) return;
    const { rect, seen } = window.counterpull.controls().find((one) => one.id === id);
    // Pushed out of sight it is brought back with the next frame.
    if (rect.join() === seen.join()) window.apart = Math.max(window.apart, Math.abs(box.getBoundingClientRect().top - rect[1]));
    requestAnimationFrame(look);
  })();
};
// A keyboard on the screen, as pages see it: it takes from the visual viewport alone.
const withKeyboard = () => {
  const view = Object.assign(new EventTarget(), { offsetTop: 0, offsetLeft: 0, scale: 1, width: innerWidth, height: innerHeight });
  Object.defineProperty(window, "visualViewport", { value: view });
  window.keyboard = (height) => {
    view.height = innerHeight - height;
    view.dispatchEvent(new Event("resize"));
  };
};

test("the box that is typed into goes with its field when the page moves under it", async () => {
  const page = await opened(phone);
  await operate(page, "section.readings");
  await operate(page, "log.add", "in tune");
  await bring(page, "log[0].tail_mm");
  await tapOpens(page, "log[0].tail_mm");
  await page.evaluate(watchBox, "log[0].tail_mm");
  const before = (await find(page, "log[0].tail_mm")).rect[1];
  await entry(page).fill("9"); // far from what was expected: a warning comes up above it, and another answer
  await until(async () => (await setup(page)).log[0]?.tail_mm === 9, "what was typed");
  await still(page);
  const { rect, seen } = await find(page, "log[0].tail_mm");
  assert.notEqual(rect[1], before, "nothing moved, so that nothing is tested");
  assert.deepEqual(seen, rect, "the field is out of sight");
  assert.ok(await isOpen(page));
  assert.ok(await page.evaluate(() => window.apart) < 1, "the box was apart from its field");
  await page.screenshot({ path: shots + "typing-reading.png" });
  await page.context().close();
});

test("with a keyboard on the screen the field is drawn above it, the box on it", async () => {
  const page = await opened(phone, withKeyboard);
  await operate(page, "section.now");
  await bring(page, "now.tail_mm");
  await tapOpens(page, "now.tail_mm");
  const ends = phone.viewport.height - 440;
  await page.evaluate(() => window.keyboard(440));
  await until(async () => (await find(page, "now.tail_mm")).rect[3] <= ends, "the field to stand above the keyboard");
  await still(page);
  const { rect, seen } = await find(page, "now.tail_mm"), box = await entry(page).boundingBox();
  assert.deepEqual(seen, rect);
  assert.ok(Math.abs(box.y - rect[1]) < 1 && box.y + box.height <= ends, `${box.y} in place of ${rect[1]}`);
  await page.screenshot({ path: shots + "typing-keyboard.png" });
  await page.context().close();
});

test("a tap on the answer never opens a field that has been scrolled away under it", async () => {
  const page = await opened(phone);
  await operate(page, "section.now");
  await bring(page, "now.tail_mm");
  const answer = await find(page, "answer");
  for (let drags = 0; drags < 8; ++drags) {
    const left = (await find(page, "now.tail_mm")).y - answer.y;
    if (left < 8) break;
    await drag(page, [120, 800], [120, 800 - Math.min(Math.max(left, 14), 400)]); // the first 10 px are no drag yet
  }
  const { x, y } = await find(page, "now.tail_mm");
  assert.ok(y < answer.rect[3] && y > answer.rect[1] - 10, `the field is at ${y}, the answer ends at ${answer.rect[3]}`);
  await page.touchscreen.tap(x, y);
  await still(page);
  assert.equal(await isOpen(page), false);
  await page.context().close();
});

test("a number in a sentence is typed into a box wide enough, its sign on the screen", async () => {
  const page = await opened(phone);
  for (const id of ["said.now.tail_mm", "said.next.tail_mm", "said.guitar.springs_owned"]) {
    await tapOpens(page, id);
    const box = await entry(page).boundingBox();
    assert.ok(box.width >= 80 && box.x >= 0 && box.x + box.width <= phone.viewport.width, id);
    const sign = await page.locator("#sign").boundingBox();
    if (sign) assert.ok(sign.x >= 0 && sign.x + sign.width <= phone.viewport.width && (sign.x >= box.x + box.width || sign.x + sign.width <= box.x), id);
    await page.keyboard.press("Enter");
  }
  await page.context().close();
});

test("a number that need not be read is emptied in the box", async () => {
  const page = await opened(phone);
  await operate(page, "section.readings");
  await operate(page, "log.add", "in tune");
  await operate(page, "log[0].tail_mm", "0.5");
  await bring(page, "log[0].tail_mm");
  await tapOpens(page, "log[0].tail_mm");
  await entry(page).fill("");
  await until(async () => (await setup(page)).log[0].tail_mm === undefined || (await setup(page)).log[0].tail_mm === null, "the reading to be emptied");
  assert.deepEqual((await controls(page)).filter(({ problem }) => problem), []);
  await page.context().close();
});

test("Enter closes the box, on keyboards that do not say which key it is too", async () => {
  const page = await opened(phone);
  await operate(page, "section.now");
  await bring(page, "now.tail_mm");
  assert.equal(await entry(page).getAttribute("enterkeyhint"), "done");
  await tapOpens(page, "now.tail_mm");
  await page.keyboard.press("Enter");
  await until(async () => !await isOpen(page), "the box to close");
  await tapOpens(page, "now.tail_mm");
  const keys = await page.context().newCDPSession(page);
  await keys.send("Input.dispatchKeyEvent", { type: "rawKeyDown", windowsVirtualKeyCode: 229, key: "Unidentified" });
  await keys.send("Input.dispatchKeyEvent", { type: "char", windowsVirtualKeyCode: 229, key: "Unidentified", text: "\r", unmodifiedText: "\r" });
  await until(async () => !await isOpen(page), "the box to close");
  await page.context().close();
});

test("the box is dark where dark paper was chosen on the page itself, and light likewise", async () => {
  for (const { colorScheme, chosen, dark } of [{ colorScheme: "light", chosen: "dark", dark: true }, { colorScheme: "dark", chosen: "light", dark: false },
    { colorScheme: "dark", chosen: "as the device has it", dark: true }]) {
    const page = await opened({ ...phone, colorScheme });
    await operate(page, "section.page");
    await operate(page, "page.paper", chosen);
    await operate(page, "section.now");
    await bring(page, "now.tail_mm");
    await tapOpens(page, "now.tail_mm");
    const [paper, ink] = await page.evaluate(() => {
      const { backgroundColor, color } = getComputedStyle(document.getElementById("entry"));
      return [backgroundColor, color].map((text) => Number(/\d+/.exec(text)[0]));
    });
    assert.equal(paper < 128, dark, `${chosen} on a ${colorScheme} device`);
    assert.equal(ink < 128, !dark);
    if (dark) await page.screenshot({ path: shots + "typing-dark.png" });
    await page.context().close();
  }
});

test("after a click into a field, Tab goes on to the control after it, and back", async () => {
  const page = await opened(desktop);
  const focused = () => page.evaluate(() => document.activeElement.getAttribute("aria-label") || document.activeElement.textContent);
  const list = (await controls(page)).filter(({ role }) => !["option", "status"].includes(role));
  const at = list.findIndex(({ id }) => id === "now.tail_mm");
  for (const [key, next] of [["Tab", list[at + 1].label], ["Shift+Tab", list[at - 1].label]]) {
    const place = await until(() => page.evaluate(placeOf, "Tail stands at"), "the field");
    await clickAt(page, ...place);
    await page.keyboard.type("-1.5");
    await withSecondTry(() => page.keyboard.press(key), async () => (await focused()) === next, `${next} to have the focus, not ${await focused()}`);
    await still(page);
    assert.equal((await setup(page)).now.tail_mm, -1.5);
  }
  await page.context().close();
});

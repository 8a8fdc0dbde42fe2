// The whole job at the bench in a real Chromium: on a phone by touch, on a desk by keyboard alone, killed and opened again
// in its midst, and sent to another device there. What comes of each step is the command line's. Taps and what is typed
// are counted. Screenshots go to .build/screenshots.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { answered, controls, desktop, documentOn, find, inChromium, linkOn, phone, says, setup, still, tap, tapOpens, written } from "./chromium.mjs";
import { commandLine as run, root, shots, until, withSecondTry } from "./site.mjs";

const { opened, opensAt, at } = inChromium(8230);
const example = readFileSync(root + "tests/examples/lower-and-heavier.json", "utf8");
const mostSteps = 60; // of any job (contract)

const put = async (page, document) => {
  assert.equal(await page.evaluate((text) => window.counterpull.open(text), document), "");
  await still(page);
};
const due = async (page) => JSON.parse(run("bench", await documentOn(page), "--json"));
// What is needed, as it is expected; typed and as an answer to the command line.
function reading({ asks, tuning }) {
  const fields = [], answer = {};
  for (const { field, string, expected = 0 } of asks.filter((one) => one.needed)) {
    const value = Math.round(10 * expected) / 10;
    fields.push({ id: field === "tail_mm" ? "job.tail_mm" : `job.cents[${string}]`, text: String(value) });
    if (field === "tail_mm") answer.tail_mm = value;
    else (answer.cents ??= tuning.map(() => null))[tuning.length - string] = value;
  }
  return { fields, answer };
}
// Until the page has made of the step what the command line makes of it. A job not begun yet the answer begins.
async function madeOf(page, before, answer, inTune) {
  const after = JSON.parse(run("bench", before, "--done", JSON.stringify({ ...answer, ...(inTune ? { in_tune: true } : {}) })));
  await until(async () => JSON.stringify((await setup(page)).bench) === JSON.stringify(after.bench), "the step to be done");
  assert.deepEqual(await setup(page), after);
}
const head = async (page) => (await find(page, "job.head")).value;
const at_rest = (page) => page.evaluate(() => window.counterpull.controls().map(({ id, value }) => id + value).join());
// The step that is due is there, readable, and fits the screen.
async function looksRight(page, step, { width, height }) {
  assert.match(await head(page), new RegExp(`^Step ${step.step} of about ${step.of}$`));
  assert.equal((await find(page, "job.say")).value, step.say);
  for (const control of await controls(page)) {
    assert.ok(control.rect[0] >= 0 && control.rect[2] <= width, `${control.id} is at ${control.rect}`);
    if (control.id === "job.aim") assert.ok(control.rect[3] - control.rect[1] >= 64, "the aim is large");
    if (["job.done", "job.aim"].includes(control.id)) assert.ok(control.rect[3] <= height, `${control.id} is at ${control.rect}`);
  }
}

test("on a phone the whole job is done by touch, as the command line has it", async (t) => {
  const page = await opened(phone, () => {
    window.locks = [];
    Object.defineProperty(navigator, "wakeLock", { value: { request: async (kind) => {
      const lock = { kind, held: true, release: async () => { lock.held = false; } };
      window.locks.push(lock);
      return lock;
    } } });
  });
  await put(page, example);
  const held = () => page.evaluate(() => window.locks.filter((lock) => lock.held).length);
  const count = { steps: 0, taps: 0, typed: 0 };
  await tap(page, "job.open", async () => (await controls(page)).some(({ id }) => id === "job.head"));
  ++count.taps;
  await until(async () => await held() === 1, "the screen to be kept awake");
  let step;
  for (step = await due(page); step.do !== "finished"; step = await due(page)) {
    assert.ok(++count.steps <= mostSteps);
    await still(page);
    await looksRight(page, step, phone.viewport);
    await page.screenshot({ path: `${shots}bench-phone-${step.step}.png` });
    const before = await documentOn(page);
    const { fields, answer } = reading(step);
    for (const { id, text } of fields) {
      await tapOpens(page, id);
      await page.locator("#entry").fill(text);
      await page.keyboard.press("Enter");
      await until(async () => parseFloat((await find(page, id)).value.replace("−", "-")) === Number(text), id + " to be entered");
      ++count.taps;
      ++count.typed;
    }
    for (let i = 1; i < (step.aims?.length ?? 1); ++i) { // a tap anywhere below
      const was = (await find(page, "job.aim")).label;
      const done = await find(page, "job.done");
      await withSecondTry(async () => { await page.touchscreen.tap(206, done.rect[1] - 20); await still(page); },
        async () => (await find(page, "job.aim")).label !== was, "the next string");
      ++count.taps;
    }
    await tap(page, "job.done", async () => (await documentOn(page)) !== before);
    ++count.taps;
    await madeOf(page, before, answer, step.reading === "in tune");
  }
  await still(page);
  await page.screenshot({ path: shots + "bench-phone-finished.png" });
  t.diagnostic(`${count.steps} steps, ${count.taps} taps, ${count.typed} numbers typed`);
  assert.ok(count.typed <= 3, `${count.typed} numbers typed`);
  await tap(page, "job.next", async () => !(await setup(page)).bench);
  await until(async () => await held() === 0, "the screen to be let go");
  assert.deepEqual((await setup(page)).now.tuning, JSON.parse(example).next.tuning);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("on a desk the whole job is done by keyboard alone", async (t) => {
  const page = await opened({ ...desktop, reducedMotion: "reduce" });
  await put(page, example);
  const label = () => page.evaluate(() => { const here = document.activeElement; return document.getElementById("mirror").contains(here) ? here.getAttribute("aria-label") || here.textContent : ""; });
  const tabTo = async (wanted) => {
    for (let presses = 0; presses < 120; ++presses) {
      if (await label() === wanted) return;
      await page.keyboard.press("Tab");
    }
    assert.fail("Tab never comes to " + wanted);
  };
  await tabTo("Begin at the bench");
  await withSecondTry(() => page.keyboard.press("Enter"), async () => (await controls(page)).some(({ id }) => id === "job.head"), "the bench");
  let presses = 0, typed = 0;
  for (let step = await due(page), steps = 0; step.do !== "finished"; step = await due(page)) {
    assert.ok(++steps <= mostSteps);
    await still(page);
    await looksRight(page, step, desktop.viewport);
    if (steps <= 3 || step.do === "tune") await page.screenshot({ path: `${shots}bench-desk-${step.step}.png` });
    const before = await documentOn(page);
    const { fields, answer } = reading(step);
    for (const { id, text } of fields) {
      const { label: name } = await find(page, id);
      await tabTo(name);
      await page.keyboard.press("Control+a");
      await page.keyboard.type(text);
      await page.keyboard.press("Tab"); // which enters it
      await until(async () => parseFloat((await find(page, id)).value.replace("−", "-")) === Number(text), id + " to be entered");
      ++typed;
    }
    // As a foot switch, or the keys there are.
    const key = ["PageDown", "ArrowRight"][steps % 2];
    for (let i = 0; i < (step.aims?.length ?? 1); ++i) {
      await still(page);
      const was = await at_rest(page);
      await withSecondTry(() => page.keyboard.press(key), async () => (await at_rest(page)) !== was, "what comes of " + key);
      ++presses;
    }
    await madeOf(page, before, answer, step.reading === "in tune");
  }
  t.diagnostic(`${presses} presses, ${typed} numbers typed`);
  await still(page);
  await page.screenshot({ path: shots + "bench-desk-finished.png" });
  await says(page.locator("#spoken"), /Done: in tune/); // heard too
  await tabTo("Back to the page");
  await withSecondTry(() => page.keyboard.press("Enter"), async () => (await controls(page)).some(({ id }) => id === "job.open"), "the page");
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

// By the program's own door, to get there.
async function goOn(page, steps) {
  for (; steps > 0; --steps) {
    const step = await due(page), before = await documentOn(page);
    for (const { id, text } of reading(step).fields) await page.evaluate(([name, value]) => window.counterpull.operate(name, value), [id, text]);
    await still(page);
    for (let i = 0; i < (step.aims?.length ?? 1); ++i) {
      await page.evaluate(() => window.counterpull.operate("job.done"));
      await still(page);
    }
    assert.notEqual(await documentOn(page), before);
  }
}
const begins = (page) => tap(page, "job.open", async () => (await controls(page)).some(({ id }) => id === "job.head"));

test("killed and opened again in its midst, the job goes on where it was, and back from there", async () => {
  const page = await opened(phone);
  await put(page, example);
  await begins(page);
  await goOn(page, 5);
  await written(page);
  const stood = await setup(page), said = await head(page);
  const again = await page.context().newPage();
  await page.close(); // without a word to anybody
  await again.goto(at());
  await answered(again);
  assert.deepEqual(await setup(again), stood);
  assert.match((await find(again, "job.open")).label, /^Go on at the bench: step 6 of \d+$/);
  await begins(again);
  assert.equal(await head(again), said);
  await tap(again, "job.back", async () => (await setup(again)).bench.done.length === 4);
  assert.deepEqual((await setup(again)).log, stood.log);
  await again.context().close();
});

test("a link sent to another device in its midst goes on there to the end", async () => {
  const page = await opened(desktop);
  await put(page, example);
  await page.evaluate(() => window.counterpull.operate("job.open"));
  await still(page);
  await goOn(page, 8);
  const link = await linkOn(page), stood = await setup(page);
  await page.context().close();
  const other = await opened(phone);
  await opensAt(other, link);
  assert.deepEqual(await setup(other), stood);
  await begins(other);
  assert.equal(await head(other), `Step 9 of about ${(await due(other)).of}`);
  for (let steps = 0; (await due(other)).do !== "finished" && steps < mostSteps; ++steps) await goOn(other, 1);
  assert.equal((await due(other)).do, "finished");
  await find(other, "job.next");
  await other.context().close();
});

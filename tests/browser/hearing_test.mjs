// The page hears strings: in a real Chromium through its own microphone, which plays a WAV file, and in all three engines
// through one that the tests play (sound.mjs); and what keeps a page from hearing. The sounds are made as
// tests/hearing/sounds.h has it; what each string really is at, the test has chosen itself.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, describe, test } from "node:test";
import { chromium } from "playwright-core";
import { answered, controls, desktop, find, inChromium, offlineReady, operate, phone, setup, still, tap } from "./chromium.mjs";
import { engines, pageIn } from "./engines.mjs";
import { bytesOf, playedMicrophone, soundDevice, strum } from "./sound.mjs";
import { chromiumFlags, commandLine as run, root, serve, shots, until } from "./site.mjs";

const { opened, at } = inChromium(8260);
const example = readFileSync(root + "tests/examples/lower-and-heavier.json", "utf8");
const tuned = [-12, 5, 0, -33, 8, -20]; // cents, from the lowest string
const clip = strum(example, "now", tuned);

// What stands in a row of the table: cents, after the note that a tuner would name.
const heardIn = ({ value }) => {
  const said = /, ([+−]?\d+) ±/.exec(value);
  return said ? Number(said[1].replace("−", "-")) : null;
};
const shownBy = async (listControls, id = "hearing.now") => {
  const rows = (await listControls()).filter((one) => one.id.startsWith(id + "["));
  return rows.length === tuned.length ? rows.map(heardIn) : tuned.map(() => null);
};
// As near as whole cents can be told, of what is a cent from where it is wanted at most.
const near = (shown, wanted) => shown.every((cents, i) => cents !== null && Math.abs(cents - wanted[i]) <= 1.5);
const played = (page, bytes) => page.evaluate((sound) => { window.soundAtFirst = sound; }, bytes);
// Once it listens the page is never at rest.
const press = async (page, id) => {
  await find(page, id);
  await page.evaluate((name) => window.counterpull.operate(name), id);
};
const listen = async (page) => {
  await operate(page, "section.readings");
  await press(page, "hearing.now");
};
const note = async (page, pattern, id = "hearing.now.note") => until(async () => pattern.test((await controls(page)).find((one) => one.id === id)?.value ?? ""), "a note of " + pattern);
const put = async (page, document) => {
  assert.equal(await page.evaluate((text) => window.counterpull.open(text), document), "");
  await still(page);
};
async function withMicrophone(options = phone, sound = bytesOf(clip)) {
  const page = await opened(options);
  await page.evaluate(playedMicrophone);
  await played(page, sound);
  await put(page, example);
  return page;
}

test("through Chromium's own microphone a strum is heard within a cent and a half, and nothing leaves the page", async () => {
  const site = await serve(8290);
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: [...chromiumFlags,
    "--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", "--use-file-for-fake-audio-capture=" + clip] });
  const page = await browser.newPage(phone);
  const requests = [];
  page.on("request", (request) => requests.push(request));
  await page.goto(site.address);
  await answered(page);
  await put(page, example);
  assert.deepEqual(requests.filter((one) => /hearing|listening/.test(one.url())).map((one) => one.url()), [], "not before it is wanted");
  await listen(page);
  await until(async () => near(await shownBy(() => controls(page)), tuned), "the strings");
  assert.match((await find(page, "hearing.now[3]")).value, /^G3 −33, −33 ± \d+, tighten$/);
  assert.match((await find(page, "hearing.now[4]")).value, /, there$/);
  for (const one of requests) assert.ok(one.method() === "GET" && one.url().startsWith(site.address), one.url());
  await page.screenshot({ path: shots + "hearing-phone.png" });
  await browser.close();
  await site.stop();
});

let port = 8310;
for (const [name, open] of Object.entries(engines)) describe("in " + name, () => {
  let site, browser, page, device;
  before(async () => {
    if (name === "Firefox") device = await soundDevice(); // without any it lets no sound run
    site = await serve(port += 30);
    browser = await open();
    page = pageIn(browser);
  }, { timeout: 300000 });
  after(async () => {
    await browser?.close();
    await site?.stop();
    device?.stop();
  }, { timeout: 60000 });

  test("a strum is heard within a cent and a half", { timeout: 300000 }, async () => {
    await page.visit(site.address);
    await browser.evaluate(playedMicrophone);
    await browser.evaluate((bytes) => { window.soundAtFirst = bytes; }, bytesOf(clip));
    assert.equal(await page.ask("open", example), "");
    await page.still();
    if ((await page.ask("controls")).find(({ id }) => id === "section.readings").value === "closed") await page.ask("operate", "section.readings");
    await until(async () => (await page.ask("controls")).some(({ id }) => id === "hearing.now"), "the button");
    // By keyboard: a press is wanted before a page may run sound.
    await browser.evaluate(() => [...document.querySelectorAll("#mirror button")].find((one) => one.textContent === "Listen to the strings").focus());
    await browser.press("Enter");
    await until(async () => near(await shownBy(() => page.ask("controls")), tuned), "the strings");
    await browser.picture(`${shots}hearing-${name.toLowerCase()}.png`);
    const asked = await browser.evaluate(() => window.microphones.map(({ audio }) => audio));
    assert.equal(asked.length, 1);
    for (const what of ["echoCancellation", "noiseSuppression", "autoGainControl"]) assert.equal(asked[0][what], false);
    await page.ask("operate", "hearing.now");
    await until(() => browser.evaluate(() => window.microphones[0].track.readyState === "ended"), "the microphone to be let go");
  });
});

test("at the bench a step that asks cents fills itself from a strum", async () => {
  const page = await withMicrophone(phone, null);
  let document = readFileSync(root + "tests/examples/small-sag.json", "utf8"), step;
  for (step = JSON.parse(run("bench", document, "--json")); step.do !== "read"; step = JSON.parse(run("bench", document, "--json")))
    document = run("bench", document, "--done", "{}");
  await put(page, document);
  await played(page, bytesOf(strum(document, "next", [3, 0, 0, 0, 0, 0])));
  await tap(page, "job.open", async () => (await controls(page)).some(({ id }) => id === "job.listen"));
  await press(page, "job.listen");
  const entered = await until(async () => {
    const { value } = await find(page, "job.cents[6]");
    return value !== "–" && value;
  }, "the cents");
  assert.ok(Math.abs(Number(/[\d.]+/.exec(entered)[0]) - 3) < 1, entered);
  await page.screenshot({ path: shots + "hearing-bench-read.png" });
  await page.evaluate(() => window.counterpull.operate("job.tail_mm", "0"));
  await until(async () => (await find(page, "job.tail_mm")).value === "0 mm", "the tail");
  await press(page, "job.done");
  await until(async () => (await setup(page)).log.length === JSON.parse(document).log.length + 1, "the step to be done");
  const reading = (await setup(page)).log.at(-1);
  assert.equal(reading.tail_mm, 0);
  assert.ok(Math.abs(reading.cents[0] - 3) < 1, String(reading.cents));
  assert.deepEqual(reading.cents.slice(1), [null, null, null, null, null]); // not asked
  await press(page, "job.leave"); // where it was wanted is no more
  await until(() => page.evaluate(() => window.microphones[0].track.readyState === "ended"), "the microphone to be let go");
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("it is kept for visits without a network once it was wanted", async () => {
  const site = await serve(8270);
  const page = await opened(phone, null, site.address);
  await offlineReady(page);
  const kept = () => page.evaluate(async () => {
    const cache = await caches.open((await caches.keys()).find((name) => name.startsWith("counterpull-")));
    return (await cache.keys()).filter(({ url }) => /hearing|listening/.test(url)).length;
  });
  assert.equal(await kept(), 0);
  await page.evaluate(playedMicrophone);
  await played(page, bytesOf(clip));
  await put(page, example);
  await listen(page);
  await until(async () => near(await shownBy(() => controls(page)), tuned), "the strings");
  await until(async () => await kept() === 4, "it to be kept");
  await site.stop();
  await page.reload();
  await answered(page);
  await page.evaluate(playedMicrophone);
  await played(page, bytesOf(clip));
  if (!(await controls(page)).some(({ id }) => id === "hearing.now")) await operate(page, "section.readings");
  await press(page, "hearing.now");
  await until(async () => near(await shownBy(() => controls(page)), tuned), "the strings, without a network");
  await page.context().close();
});

test("it stops when the page is out of sight, and after two minutes in which no string was heard", async () => {
  const page = await withMicrophone(phone, null);
  await listen(page);
  await until(async () => (await controls(page)).some(({ id }) => id === "hearing.now[6]"), "it to listen");
  await page.evaluate(() => {
    Object.defineProperty(document, "hidden", { value: true, configurable: true });
    document.dispatchEvent(new Event("visibilitychange"));
  });
  await note(page, /out of sight/);
  assert.equal(await page.evaluate(() => window.microphones[0].track.readyState), "ended");
  await page.evaluate(() => { Object.defineProperty(document, "hidden", { value: false, configurable: true }); });
  await press(page, "hearing.now");
  await until(async () => (await controls(page)).some(({ id }) => id === "hearing.now[6]"), "it to listen again");
  await page.evaluate(() => { const now = performance.now.bind(performance); performance.now = () => now() + 90000; });
  await page.waitForTimeout(500);
  assert.equal(await page.evaluate(() => window.microphones[1].track.readyState), "live");
  await page.evaluate(() => { const now = performance.now.bind(performance); performance.now = () => now() + 40000; });
  await note(page, /no string was heard for two minutes/);
  assert.equal(await page.evaluate(() => window.microphones[1].track.readyState), "ended");
  await page.context().close();
});

test("what keeps the page from listening is said with what to do, and numbers can be typed", async () => {
  const cases = [
    ["denied", () => { navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException("", "NotAllowedError")); }, /may not use the microphone. Allow it/],
    ["none", () => { navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException("", "NotFoundError")); }, /No microphone was found. Plug one in/],
    ["taken", () => { navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException("", "NotReadableError")); }, /Another program has the microphone/],
    ["insecure", () => { Object.defineProperty(navigator, "mediaDevices", { value: undefined }); }, /an address with https/],
    ["old", () => { delete window.AudioWorkletNode; }, /too old to listen/],
  ];
  for (const [what, prepare, told] of cases) {
    const page = await opened(phone);
    await page.evaluate(prepare);
    await listen(page);
    await note(page, told);
    assert.match((await find(page, "hearing.now")).label, /^Listen/);
    if (what === "denied") await page.screenshot({ path: shots + "hearing-denied.png" });
    await operate(page, "log.add", "in tune");
    await operate(page, "log[0].tail_mm", "0.5");
    assert.equal((await setup(page)).log[0].tail_mm, 0.5);
    await page.context().close();
  }
});

test("a part that is not delivered is told, and pressed again it works", async () => {
  const page = await withMicrophone();
  await operate(page, "section.readings");
  await page.route(/listening-\w+\.js$/, (route) => route.abort());
  await press(page, "hearing.now");
  await note(page, /could not be loaded/);
  await page.unroute(/listening-\w+\.js$/);
  // What a worklet fetches no test can hold back: it fails as it would.
  await page.evaluate(() => {
    window.addModule = AudioWorklet.prototype.addModule;
    AudioWorklet.prototype.addModule = () => Promise.reject(new DOMException("", "AbortError"));
  });
  await press(page, "hearing.now");
  await note(page, /part that listens was not loaded/);
  await page.evaluate(() => { AudioWorklet.prototype.addModule = window.addModule; });
  // Nor a tap that cannot be made: the microphone is let go too.
  await page.evaluate(() => {
    window.node = AudioWorkletNode;
    /** @type {any} */ (window).AudioWorkletNode = function () { throw new DOMException("", "InvalidStateError"); };
  });
  await press(page, "hearing.now");
  await page.waitForFunction(() => window.microphones.length === 2 && window.microphones[1].track.readyState === "ended");
  await note(page, /part that listens was not loaded/);
  await page.evaluate(() => { window.AudioWorkletNode = window.node; });
  await press(page, "hearing.now");
  await until(async () => near(await shownBy(() => controls(page)), tuned), "the strings");
  await page.context().close();
});

test("a microphone that is muted, far away or too near is told while it listens", async () => {
  const page = await withMicrophone(phone, null);
  await listen(page);
  await note(page, /switched off or muted/); // nothing at all
  const loud = readFileSync(clip), quiet = readFileSync(clip);
  for (let i = 44; i + 1 < loud.length; i += 2) {
    loud.writeInt16LE(Math.max(-32767, Math.min(32767, 8 * loud.readInt16LE(i))), i);
    quiet.writeInt16LE(Math.round(quiet.readInt16LE(i) / 600) + (i % 4 === 0 ? 1 : -1) * (i % 3), i);
  }
  await page.evaluate((bytes) => window.sound(bytes), loud.toString("base64"));
  await note(page, /Too loud/);
  await page.evaluate((bytes) => window.sound(bytes), quiet.toString("base64"));
  await note(page, /Too quiet/);
  await page.evaluate((bytes) => window.sound(bytes), bytesOf(clip));
  await until(async () => !(await controls(page)).some(({ id }) => id === "hearing.now.note"), "nothing more to be said");
  await page.evaluate(() => window.microphones[0].track.dispatchEvent(new Event("ended")));
  await note(page, /unplugged/);
  await page.context().close();
});

test("in a frame it is not there, and may not be", async () => {
  const page = await opened(desktop);
  const policy = async (file) => (await page.request.get(at() + file)).headers()["permissions-policy"];
  assert.equal(await policy(""), "microphone=(self)");
  assert.equal(await policy("embed.html"), "microphone=()");
  await page.context().close();
});

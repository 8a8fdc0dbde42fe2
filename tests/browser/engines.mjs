// The three browser engines behind one small set of verbs, so that each runs the same scenarios:
//   visit(url)   evaluate(function, ...arguments)   click(x, y) type(text) press(key)
//   picture(file) close()
// Chromium by playwright-core, Firefox by puppeteer-core (WebDriver BiDi), WebKitGTK by selenium-webdriver
// (WebKitWebDriver). The latter two need a display: run under xvfb-run.
import { existsSync, readdirSync, writeFileSync } from "node:fs";
import { chromium } from "playwright-core";
import puppeteer from "puppeteer-core";
import { Builder, Capabilities, Key, Origin } from "selenium-webdriver";
import { spawn } from "node:child_process";
import { atRest, chromiumFlags, patience, placeOf, until, withSecondTry } from "./site.mjs";

const size = { width: 1280, height: 800 };

async function openChromium() {
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: chromiumFlags, timeout: 2 * patience });
  const context = await browser.newContext({ viewport: size });
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  return {
    visit: (url) => page.goto(url),
    evaluate: (run, ...values) => page.evaluate(`(${run})(...${JSON.stringify(values)})`),
    click: (x, y) => page.mouse.click(x, y),
    type: (text) => page.keyboard.type(text),
    press: (key) => page.keyboard.press(key),
    picture: (path) => page.screenshot({ path }),
    close: () => browser.close(),
  };
}

async function openFirefox() {
  const browser = await puppeteer.launch({ browser: "firefox", executablePath: "/usr/bin/firefox-esr", headless: false,
    timeout: 2 * patience, defaultViewport: size, extraPrefsFirefox: { "webgl.force-enabled": true, "media.autoplay.default": 0 } });
  const page = await browser.newPage();
  return {
    visit: (url) => page.goto(url, { waitUntil: "load", timeout: patience }),
    evaluate: (run, ...values) => page.evaluate(`(${run})(...${JSON.stringify(values)})`),
    click: (x, y) => page.mouse.click(x, y),
    type: (text) => page.keyboard.type(text),
    press: async (key) => {
      const keys = key.split("+").map((one) => (one === "Space" ? " " : one));
      for (const held of keys.slice(0, -1)) await page.keyboard.down(held);
      await page.keyboard.press(keys.at(-1));
      for (const held of keys.slice(0, -1).reverse()) await page.keyboard.up(held);
    },
    picture: (path) => page.screenshot({ path }),
    close: () => browser.close(),
  };
}

// Debian keeps the browser beside the library, in a folder by processor.
const miniBrowser = () => readdirSync("/usr/lib").map((folder) => `/usr/lib/${folder}/webkit2gtk-4.1/MiniBrowser`).find(existsSync);

async function openWebKit() {
  const port = 8390;
  const server = spawn("WebKitWebDriver", ["--port=" + port], { stdio: "ignore" });
  await until(async () => (await fetch(`http://127.0.0.1:${port}/status`)).ok, "the driver");
  const wanted = new Capabilities({ browserName: "MiniBrowser", "webkitgtk:browserOptions": {
    binary: miniBrowser(), args: ["--automation"] } });
  const driver = await new Builder().usingServer(`http://127.0.0.1:${port}`).withCapabilities(wanted).build();
  await driver.manage().window().setRect({ x: 0, y: 0, ...size });
  return {
    visit: (url) => driver.get(url),
    evaluate: (run, ...values) => driver.executeScript(`return (${run})(...arguments)`, ...values),
    click: (x, y) => driver.actions().move({ x: Math.round(x), y: Math.round(y), origin: Origin.VIEWPORT }).click().perform(),
    type: (text) => driver.actions().sendKeys(text).perform(),
    press: (key) => {
      const named = { Control: Key.CONTROL, Enter: Key.ENTER, Tab: Key.TAB, Escape: Key.ESCAPE, Space: Key.SPACE };
      const keys = key.split("+").map((name) => named[name] ?? name);
      const actions = driver.actions();
      for (const one of keys) actions.keyDown(one);
      for (const one of keys.reverse()) actions.keyUp(one);
      return actions.perform();
    },
    picture: async (path) => writeFileSync(path, await driver.takeScreenshot(), "base64"),
    close: async () => { await driver.quit().catch(() => {}); server.kill(); },
  };
}

export const engines = { Chromium: openChromium, Firefox: openFirefox, WebKitGTK: openWebKit };

// The page in one of them, as its person meets it.
export function pageIn(browser) {
  const ask = (what, ...values) => browser.evaluate((w, ...v) => window.counterpull[w](...v), what, ...values);
  const still = () => browser.evaluate(atRest); // until nothing is drawn any more
  return {
    ask,
    still,
    setup: async () => JSON.parse(await ask("document")),
    async visit(url) {
      await browser.visit("about:blank");
      await browser.visit(url);
      await until(() => browser.evaluate(() => document.getElementById("cover").hidden && !!window.counterpull), "the page");
      await still();
    },
    // Presses what has this label, does what is to be done then, until what is to come of it `came`.
    press: (label, came, then = () => {}) => withSecondTry(async () => {
      await still();
      await browser.click(...await until(() => browser.evaluate(placeOf, label), "a control " + label));
      await still();
      await then();
      await still();
    }, came, "what comes of pressing " + label),
    // The dialog with the link, until its square code is drawn.
    codeDrawn: () => until(() => browser.evaluate(() => document.querySelector("#share[open] .code path") !== null), "the code"),
  };
}

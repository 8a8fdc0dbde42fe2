// The three browser engines behind one small set of verbs, so that each runs the same scenarios:
//   visit(url) reload() back()   evaluate(function, ...arguments)   click(x, y) type(text) press(key)
//   picture(file) close()
// Chromium by playwright-core, Firefox by puppeteer-core (WebDriver BiDi), WebKitGTK by selenium-webdriver
// (WebKitWebDriver). The latter two need a display: run under xvfb-run.
import { existsSync, readdirSync, writeFileSync } from "node:fs";
import { chromium } from "playwright-core";
import puppeteer from "puppeteer-core";
import { Builder, Capabilities, Key, Origin } from "selenium-webdriver";
import { spawn } from "node:child_process";
import { chromiumFlags, pause } from "./site.mjs";

const size = { width: 1280, height: 800 };

async function openChromium() {
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: chromiumFlags });
  const context = await browser.newContext({ viewport: size });
  const page = await context.newPage();
  return {
    visit: (url) => page.goto(url),
    reload: () => page.reload(),
    back: () => page.goBack(),
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
    defaultViewport: size, extraPrefsFirefox: { "webgl.force-enabled": true } });
  const page = await browser.newPage();
  const settled = { waitUntil: "load" };
  return {
    visit: (url) => page.goto(url, settled),
    reload: () => page.reload(settled),
    back: () => page.goBack(),
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
  await pause(1000);
  const wanted = new Capabilities({ browserName: "MiniBrowser", "webkitgtk:browserOptions": {
    binary: miniBrowser(), args: ["--automation"] } });
  const driver = await new Builder().usingServer(`http://127.0.0.1:${port}`).withCapabilities(wanted).build();
  await driver.manage().window().setRect({ x: 0, y: 0, ...size });
  return {
    visit: (url) => driver.get(url),
    reload: () => driver.navigate().refresh(),
    back: () => driver.navigate().back(),
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

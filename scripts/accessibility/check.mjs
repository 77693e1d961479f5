// Opens pages in Chromium at desk and phone width, in light, dark and for print, and runs axe-core on each.
//
//   npm install
//   node check.mjs report.html lesson.html
//
// CHROMIUM names the browser (default /usr/bin/chromium); SHOTS, a folder, keeps a picture of every view.
// Ends with 1 where something serious or critical is found, where a page asks for anything but itself, or where it is
// wider than its window; with 2 where it is called without a page.

import { mkdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const pages = process.argv.slice(2);
const shots = process.env.SHOTS;

const views = [
  { name: "desk", width: 1200, scheme: "light", media: "screen" },
  { name: "desk-dark", width: 1200, scheme: "dark", media: "screen" },
  { name: "phone", width: 390, scheme: "light", media: "screen" },
  { name: "phone-dark", width: 390, scheme: "dark", media: "screen" },
  { name: "print", width: 720, scheme: "light", media: "print" },
];

if (pages.length === 0) {
  console.error("usage: node check.mjs PAGE.html ...");
  process.exit(2);
}

if (shots) mkdirSync(shots, { recursive: true });
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
  ],
});

let bad = 0;
for (const file of pages) {
  const address = pathToFileURL(resolve(file)).href;
  for (const view of views) {
    const context = await browser.newContext({
      viewport: { width: view.width, height: 900 },
      colorScheme: view.scheme,
    });
    const page = await context.newPage();
    const asked = [];
    page.on("request", (request) => asked.push(request.url()));
    await page.emulateMedia({ media: view.media, colorScheme: view.scheme });
    const began = performance.now();
    await page.goto(address, { waitUntil: "load" });
    const took = Math.round(performance.now() - began);
    const others = asked.filter((url) => url !== address && !url.startsWith("data:"));
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    await page.evaluate(axe);
    const found = (await page.evaluate(() => window.axe.run(document))).violations;
    const serious = found.filter((one) => ["serious", "critical"].includes(one.impact));
    const minor = found.filter((one) => !serious.includes(one));
    console.log(
      `${basename(file)} ${view.name}: opened in ${took} ms, ${serious.length} serious, ${minor.length} lesser, ` +
        `${others.length} requests, ${wide > 0 ? `${wide} px too wide` : "fits"}`,
    );
    for (const one of found) {
      const places = one.nodes.slice(0, 3).map((node) => node.target.join(" "));
      console.log(`  ${one.impact} ${one.id}: ${one.help}: ${places.join("; ")} (${one.nodes.length})`);
    }
    for (const url of others) console.log(`  asked for ${url}`);
    bad += serious.length + others.length + (wide > 0 ? 1 : 0);
    if (shots) {
      const picture = join(shots, `${basename(file, ".html")}-${view.name}.png`);
      await page.screenshot({ path: picture, fullPage: true });
    }
    await context.close();
  }
}
await browser.close();
process.exit(bad > 0 ? 1 : 0);

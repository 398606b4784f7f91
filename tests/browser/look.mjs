// Opens pages in the system's Chromium and says what a reader meets there.
// Standard input: {"chromium": path, "pages": [{"url", "width", "axe": bool, "within": selector, "picture": path}]}.
// Standard output: one answer a page, in order.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { chromium } from "playwright-core";

const require = createRequire(import.meta.url);
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const order = JSON.parse(readFileSync(0, "utf8"));

const FLAGS = [
  "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync",
];

// The smallest text in pixels, and how far anything reaches beyond the right edge of the window.
function measure(within) {
  const sizes = [];
  for (const root of document.querySelectorAll(within)) {
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const text = walker.currentNode;
      const style = getComputedStyle(text.parentElement);
      if (text.data.trim() && style.display !== "none") sizes.push(parseFloat(style.fontSize));
    }
  }
  const hostile = [...document.querySelectorAll("*")]
    .flatMap((node) => [...node.attributes].map((a) => `${node.localName}@${a.name}`))
    .filter((name) => /@on|@style$|@srcdoc/.test(name));
  return {
    scrollWidth: document.documentElement.scrollWidth,
    smallest: Math.min(...sizes),
    elements: [...new Set([...document.querySelectorAll(`${within}, ${within} *`)].map((n) => n.localName))].sort(),
    hostile,
    owned: globalThis.owned ?? null,
    ids: [...document.querySelectorAll("[id]")].map((node) => node.id),
  };
}

async function violations(page, within) {
  await page.evaluate(axe);
  const found = await page.evaluate((selector) => globalThis.axe.run(selector, {
    rules: { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: true } },
    resultTypes: ["violations"],
  }), within);
  return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 160)).slice(0, 3).join(" | ")}`);
}

const browser = await chromium.launch({ executablePath: order.chromium, args: FLAGS });
const answers = [];
for (const wish of order.pages) {
  const page = await browser.newPage({ viewport: { width: wish.width, height: 900 } });
  const errors = [];
  page.on("pageerror", (error) => errors.push(String(error)));
  page.on("dialog", (dialog) => { errors.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
  await page.goto(wish.url);
  if (wish.evaluate) await page.evaluate(wish.evaluate);
  const within = wish.within ?? "body";
  const answer = { ...(await page.evaluate(measure, within)), errors };
  if (wish.ask) answer.answer = await page.evaluate(wish.ask);
  if (wish.axe) answer.violations = await violations(page, within);
  if (wish.picture) await page.screenshot({ path: wish.picture, fullPage: true });
  answers.push(answer);
  await page.close();
}
await browser.close();
process.stdout.write(JSON.stringify(answers));

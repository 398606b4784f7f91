// Opens pages in the system's Chromium and says what a reader meets there.
// Standard input: {"chromium": path, "pages": [{"url", "width", "axe": bool, "within": selector, "picture": path}]}.
// "scheme" is "dark" for a reader who prefers dark. A page may also have "site" ({url: {body, headers, contentType}}, what the network answers), "script": false, and "steps":
// [{"click": selector, "nth"}, {"key": name}, {"fill": [selector, text]}, {"pick": [selector, label]}, {"goto": url},
// {"reload": true}, {"wait": ms}, {"site": {...}}, {"dialogs": "accept"}, {"ask": expression}, {"axe": true}, {"picture": path}, {"pdf": path}],
// done before the rest; what they ask is in the answer's "told".
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

async function take(step, page, state, told, within) {
  if (step.site) Object.assign(state.site, step.site);
  if (step.dialogs) state.dialogs = step.dialogs;
  if (step.click) await page.locator(step.click).nth(step.nth ?? 0).click(step.at ? { position: step.at } : {});
  if (step.key) await page.keyboard.press(step.key);
  if (step.fill) await page.locator(step.fill[0]).fill(step.fill[1]);
  if (step.pick) await page.locator(step.pick[0]).selectOption(step.pick[1]);
  if (step.wait) await page.waitForTimeout(step.wait);
  if (step.goto) await page.goto(step.goto);
  if (step.reload) await page.reload();
  if (step.ask) told.push(await page.evaluate(step.ask));
  if (step.axe) told.push(await violations(page, within));
  if (step.picture) await page.screenshot({ path: step.picture, fullPage: step.full ?? false });
  if (step.pdf) await page.pdf({ path: step.pdf, format: "A4", preferCSSPageSize: true });
}

const browser = await chromium.launch({ executablePath: order.chromium, args: FLAGS });
const answers = [];
for (const wish of order.pages) {
  const page = await browser.newPage({
    viewport: { width: wish.width, height: wish.height ?? 900 }, javaScriptEnabled: wish.script ?? true, colorScheme: wish.scheme ?? "light",
  });
  page.setDefaultTimeout(20000);
  const errors = [];
  const told = [];
  const state = { site: wish.site ?? {}, dialogs: "" };
  page.on("pageerror", (error) => errors.push(String(error)));
  page.on("console", (line) => { if (["error", "warning"].includes(line.type())) errors.push(line.text()); });
  page.on("dialog", (dialog) => {
    if (!state.dialogs) errors.push(`dialog: ${dialog.message()}`);
    else told.push(dialog.message());
    if (state.dialogs === "accept") dialog.accept();
    else dialog.dismiss();
  });
  if (wish.site) await page.route("**/*", (route) => route.fulfill(state.site[route.request().url()] ?? { status: 404 }));
  await page.goto(wish.url);
  for (const step of wish.steps ?? []) await take(step, page, state, told, wish.within ?? "body");
  if (wish.evaluate) await page.evaluate(wish.evaluate);
  const within = wish.within ?? "body";
  const answer = { ...(await page.evaluate(measure, within)), errors, told };
  if (wish.ask) answer.answer = await page.evaluate(wish.ask);
  if (wish.axe) answer.violations = await violations(page, within);
  if (wish.picture) await page.screenshot({ path: wish.picture, fullPage: true });
  answers.push(answer);
  await page.close();
}
await browser.close();
process.stdout.write(JSON.stringify(answers));

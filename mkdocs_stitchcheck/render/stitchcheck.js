// Following a pattern: ticks that stay, the terms that a maker knows, her own yarn. Without it the page stays whole.
(() => {
"use strict";
const all = (root, what) => [...root.querySelectorAll(what)];
const one = (root, what) => root.querySelector(what);
const el = (tag, props, ...inside) => {
  const node = Object.assign(document.createElement(tag), props);
  node.append(...inside);
  return node;
};
const set = (node, name, value) => { node.setAttribute(name, value); return node; };
const note = (className, ...inside) => set(el("div", { className, translate: false }, ...inside), "role", "status");
const button = (text, press) => el("button", { type: "button", textContent: text, onclick: press });
const escaped = word => word.replace(/[^\p{L}\p{N} ]/gu, "\\$&");
const finder = words => RegExp(`(^|[^\\p{L}])(${words.sort((a, b) => b.length - a.length).map(escaped).join("|")})(?!\\p{L})`, "gu");

// What the browser keeps. Where it keeps nothing, ticks last until the page is left.
let keeps = true;
const load = key => { try { return JSON.parse(localStorage[key] || "{}") || {}; } catch { keeps = false; return {}; } };
const save = (key, value) => { try { localStorage[key] = JSON.stringify(value); } catch { keeps = false; } };
const prefs = load("stitchcheck");
const patterns = [];
let bar, last, awake;

// --- boxes: a row has one group of them, or one a copy; a long range has a number instead

const texts = root => {
  const found = [], walk = document.createTreeWalker(root, 4);
  while (walk.nextNode()) found.push(walk.currentNode);
  return found;
};
const long = group => group[0].type === "number";
// The boxes of the size that was chosen.
const live = group => group.filter(box => {
  const picked = box.owner.picked(), of = picked && box.closest(".sc-s");
  return !of || of.classList.contains("sc-s" + picked);
});
const size = group => long(group) ? live(group).length && +group[0].max : live(group).length;
const count = group => long(group)
  ? Math.max(0, Math.min(size(group), Math.floor(+group[0].value) || 0)) : live(group).filter(box => box.checked).length;
const step = (group, on) => {
  const boxes = live(group);
  if (!boxes.length) return;
  if (long(group)) group[0].value = Math.max(0, Math.min(size(group), count(group) + (on ? 1 : -1)));
  else if (on) boxes.find(box => !box.checked).checked = true;
  else boxes.filter(box => box.checked).pop().checked = false;
};
const mark = text => [...text].reduce((sum, c) => (sum * 31 + c.codePointAt(0)) % 2147483647, 7).toString(36);
const words = row => one(row, ".sc-words");
const label = row => one(row, ".sc-rnd")?.textContent || "";
// A box's round: ["Rnd", 12]; the further one of a number's rounds.
const round = (box, further) => {
  const found = box.getAttribute("aria-label").match(/^([^\d,]+) (\d+)/);
  return found ? [found[1], +found[2] + further] : ["", 0];
};

const prefer = (name, value) => {
  prefs[name] = value;
  save("stitchcheck", prefs);
  patterns.forEach(pattern => pattern.look());
};

class Pattern {
  constructor(id) {
    this.key = `stitchcheck:${location.pathname.replace(/index\.html$/, "")}#${id}`;
    this.state = load(this.key);
    this.roots = [];
    this.rows = [];
  }

  add(root) {
    this.roots.push(root);
    for (const part of all(root, ".sc-piece")) {
      for (const row of all(part, "tbody tr")) {
        if (!one(row, ".sc-tick input")) continue;
        row.text = one(row, ".sc-do").textContent;
        const groups = all(row, ".sc-copy").length ? all(row, ".sc-copy") : all(row, ".sc-tick");
        row.groups = groups.map(group => all(group, "input"));
        row.sum = mark(row.text + (one(row, ".sc-count")?.textContent || ""));
        row.piece = part.dataset.piece;
        const name = `${row.piece}|${label(row) || row.sum}|`;
        row.key = name + this.rows.filter(r => r.key.startsWith(name)).length;
        this.rows.push(row);
        const kept = this.state.t?.[row.key];
        row.groups.flat().forEach((box, i) => {
          box.owner = this;
          const group = row.groups.find(own => own.includes(box));
          box.onchange = () => this.touched(row, group);
          if (!long([box])) return box.checked = !!kept?.[i];
          box.value = kept?.[i] || 0;
          box.parentNode.before(button("one less", () => {
            step(group, false);
            this.touched(row, group);
          }));
        });
        row.onclick = e => {
          if (!e.target.closest("a, button, input") && !String(getSelection())) this.tap(row);
        };
        row.onkeydown = e => { if (e.key === "?") all(row, ".sc-ab").forEach(word => word.click()); };
      }
    }
  }

  begin() {
    const head = this.roots.map(root => one(root, ".sc-head")).find(Boolean);
    if (head && this.rows.length) head.append(this.tools(), this.corrections());
    this.ask = head?.querySelector(".sc-ask a");
    this.explain();
    const sizes = this.roots.flatMap(root => all(root, ".sc-choice input"));
    if (sizes.length) {
      this.sizes = sizes;
      (sizes[this.state.s] || sizes[0]).checked = true;
      sizes.forEach((one, i) => one.onchange = () => {
        this.state.s = i;
        if (!this.at || !this.open(this.at)) this.at = this.after();
        this.keep();
        this.draw();
      });
    }
    this.at = this.rows.find(row => row.key === this.state.at) || this.after();
    this.draw();
    if (ticked(this) && !last) last = this;
  }

  // The number of the size that was chosen; 0 for all.
  picked() { return this.sizes ? this.sizes.findIndex(one => one.checked) : 0; }

  of(piece) { return this.rows.filter(row => row.piece === piece); }

  // The copy of a piece that is being worked, from 0.
  copy(piece) {
    const groups = this.of(piece).map(row => row.groups);
    const most = Math.max(...groups.map(g => g.length));
    for (let c = 0; c < most; c++) if (groups.some(g => g[c] && count(g[c]) < size(g[c]))) return c;
    return most - 1;
  }

  group(row) { return row.groups[Math.min(this.copy(row.piece), row.groups.length - 1)]; }

  open(row) { return count(this.group(row)) < size(this.group(row)); }

  // What comes next after a row: the rest of its piece, the next copy, the next piece, whatever was passed over.
  after(row) {
    const rest = this.rows.slice(this.rows.indexOf(row) + 1);
    const mine = one => one.piece === row?.piece;
    return [...rest.filter(mine), ...this.rows.filter(mine), ...rest, ...this.rows].find(one => this.open(one));
  }

  // A tap ticks the next box of the row; the next tap on the same row goes on, or takes back what was full.
  tap(row) {
    const group = this.tapped?.row === row ? this.tapped.group : this.group(row);
    step(group, count(group) < size(group));
    this.tapped = { row, group };
    this.touched(row, group);
  }

  touched(row, group) {
    const before = this.at;
    this.at = count(group) < size(group) ? row : this.after(row);
    if (this.at !== before) this.state.r = 0;
    last = this;
    this.keep();
    this.draw();
  }

  keep() {
    const t = {}, s = this.state;
    for (const row of this.rows) {
      const bits = row.groups.flat().map(box => long([box]) ? count([box]) : +box.checked);
      if (bits.some(Boolean)) t[row.key] = bits;
    }
    const begun = Object.keys(t).length || s.r || s.s;
    this.state = begun ? { ...s, t, at: this.at?.key, v: s.v ?? this.version(), h: s.h ?? this.sums() } : {};
    save(this.key, this.state);
  }

  version() { return this.roots.map(root => root.dataset.version).find(Boolean) || ""; }

  sums() { return Object.fromEntries(this.rows.map(row => [row.key, row.sum])); }

  draw() {
    for (const row of this.rows) {
      row.classList.toggle("sc-done", !this.open(row));
      row.classList.toggle("sc-next", row === this.at);
    }
    this.now?.remove();
    if (this.at) words(this.at).append(this.now = this.strip(this.at));
    drawBar();
  }

  strip(row) {
    const strip = el("span", { className: "sc-now", translate: false });
    const times = +row.dataset.times;
    if (times) {
      const say = () => `Repeat ${this.state.r || 0} of ${times}`;
      const press = e => {
        this.state.r = (this.state.r || 0) >= times ? 0 : (this.state.r || 0) + 1;
        e.target.textContent = say();
        last = this;
        this.keep();
      };
      strip.append(button(say(), press));
    }
    if (this.ask) {
      const href = this.ask.href.replace(/(subject=[^&]*)/, `$1${encodeURIComponent(`: ${this.where(row)}`)}`);
      strip.append(el("a", { href, textContent: "Ask about this round" }));
    }
    return strip;
  }

  // "Body, Rnd 12 of 25"; "Paw, copy 2 of 2, Rnd 3 of 6"; "Body, Stuff firmly."
  where(row) {
    const copies = Math.max(...this.of(row.piece).map(one => one.groups.length));
    const copy = copies > 1 ? `, copy ${this.copy(row.piece) + 1} of ${copies}` : "";
    const group = this.group(row);
    const next = live(group).find(box => !box.checked) || group.at(-1);
    const [word, number] = round(next, long(group) ? Math.min(count(group), next.max - 1) : 0);
    if (!number) return `${row.piece}${copy}, ${row.text.length > 40 ? row.text.slice(0, 38) + "…" : row.text}`;
    const ends = this.of(row.piece).map(one => live(one.groups[0]).at(-1)).filter(Boolean).map(box => round(box, +box.max && box.max - 1));
    return `${row.piece}${copy}, ${word} ${number} of ${Math.max(...ends.filter(end => end[0] === word).map(end => end[1]))}`;
  }

  tools() {
    const tools = set(el("div", { className: "sc-tools", translate: false, ariaLabel: "Following this pattern" }), "role", "group");
    for (const [name, text] of [["large", "Large print"], ["hide", "Hide finished rounds"]]) {
      tools.append(set(button(text, () => prefer(name, !prefs[name])), "data-pref", name));
    }
    if (navigator.wakeLock) {
      const it = button("Keep the screen on", async () => {
        if (awake) await awake.release();
        awake = awake ? null : await navigator.wakeLock.request("screen").catch(() => null);
        all(document, ".sc-awake").forEach(one => set(one, "aria-pressed", !!awake));
      });
      it.className = "sc-awake";
      tools.append(set(it, "aria-pressed", !!awake));
    }
    this.system = this.roots.map(root => root.dataset.terms).find(Boolean);
    if (this.system) {
      this.swap = JSON.parse(this.roots.find(root => root.dataset.words).dataset.words);
      this.switch = button("", () => prefer("terms", this.shown === "US" ? "UK" : "US"));
      tools.append(this.switch);
    }
    tools.append(button("Clear all ticks", () => {
      if (!confirm("Clear all ticks of this pattern?")) return;
      this.rows.flatMap(row => row.groups.flat()).forEach(box => long([box]) ? box.value = 0 : box.checked = false);
      this.state = {};
      this.at = this.after();
      this.keep();
      this.draw();
    }));
    if (!keeps) tools.append(el("small", {}, "This browser keeps no ticks for later."));
    return tools;
  }

  corrections() {
    const { h, v } = this.state;
    const changed = h ? this.rows.filter(row => label(row) && h[row.key] !== row.sum) : [];
    if (!changed.length) return "";
    const named = changed.map(row => `${row.piece}, ${label(row)}`).join("; ");
    const was = v && v !== this.version() ? ` (with version ${v})` : "";
    const said = note("sc-changed",
      `${named} ${changed.length > 1 ? "were" : "was"} corrected since you began${was}. `, button("Seen", () => {
        Object.assign(this.state, { v: this.version(), h: this.sums() });
        this.keep();
        said.remove();
      }));
    return said;
  }

  // --- the words of the rounds

  explain() {
    const list = new Map(this.roots.flatMap(root => all(root, ".sc-abbr dt")).flatMap(dt =>
      dt.textContent.split(", ").map(word => [word, dt])));
    if (!list.size) return;
    const find = finder([...list.keys()]);
    for (const row of this.rows) {
      for (const text of texts(one(row, ".sc-do"))) {
        const parts = [];
        let at = 0;
        for (const found of text.data.matchAll(find)) {
          const start = found.index + found[1].length;
          parts.push(text.data.slice(at, start), this.explained(found[2], list.get(found[2]), row));
          at = start + found[2].length;
        }
        text.replaceWith(...parts, text.data.slice(at));
      }
    }
  }

  explained(word, dt, row) {
    const it = button(word, () => {
      const said = all(row, ".sc-say").find(one => one.dt === dt);
      if (said) return said.remove();
      const say = note("sc-say", `${dt.textContent}: ${one(dt.parentNode, "dd").textContent}`);
      words(row).append(Object.assign(say, { dt }));
    });
    it.className = "sc-ab";
    it.tabIndex = -1;
    return it;
  }

  look() {
    for (const root of this.roots) {
      root.classList.toggle("sc-large", !!prefs.large);
      root.classList.toggle("sc-hide", !!prefs.hide);
      all(root, "[data-pref]").forEach(one => set(one, "aria-pressed", !!prefs[one.dataset.pref]));
    }
    if (!this.system) return;
    this.roots.flatMap(root => all(root, ".sc-say")).forEach(one => one.remove());
    this.shown = prefs.terms || this.system;
    this.switch.textContent = `Show in ${this.shown === "US" ? "UK" : "US"} terms`;
    const there = this.shown !== this.system && finder(Object.keys(this.swap));
    const put = (holder, own, now, change) => {
      const kept = holder[own] ??= now;
      const text = there ? kept.replace(there, (_, before, word) => before + this.swap[word]) : kept;
      if (text !== now) change(text);
    };
    for (const root of this.roots) {
      for (const node of texts(root)) {
        if (!node.parentNode.closest("[translate=no], .sc-finding, a")) put(node, "own", node.data, text => node.data = text);
      }
      for (const name of ["aria-label", "alt", "title"]) {
        all(root, `[${name}]`).forEach(node => {
          if (!node.closest("[translate=no]")) put(node, name, node.getAttribute(name), text => set(node, name, text));
        });
      }
    }
  }
}

const ticked = pattern => Object.keys(pattern?.state.t || {}).length;
const drawBar = () => {
  if (!ticked(last) || !last.roots[0].isConnected) return bar?.remove();
  if (!bar) {
    bar = set(el("div", { className: "stitchcheck sc sc-bar", ariaLive: "polite", ariaLabel: "Where you are" }), "role", "region");
  }
  if (!bar.isConnected) document.body.append(bar);
  const focused = bar.contains(document.activeElement);
  const row = last.at;
  if (!row) return bar.replaceChildren("Every round is ticked.");
  bar.replaceChildren(
    button(`${last.where(row)}, next`, () => {
      row.scrollIntoView({ block: "center" });
      one(row, "input").focus({ preventScroll: true });
    }),
    button("Tick it", () => {
      last.tapped = null;
      last.tap(row);
    }));
  if (focused) bar.lastChild.focus();
};

// --- another yarn: the same sums as in the library's estimates.another_yarn

const UNITS = { g: 1, oz: 28.349523125, m: 1, yd: .9144, cm: 1, in: 2.54 };
// Rounded to what an error leaves of it, halves to the even digit.
const rounded = (value, error) => {
  const unit = 10 ** ((error < .03 ? 2 : error <= .3 ? 1 : 0) - Math.floor(Math.log10(value)));
  const whole = Math.round(value * unit);
  return (value * unit % 1 === .5 && whole % 2 ? whole - 1 : whole) / unit;
};
const plain = (value, error) => {
  const number = rounded(value, error);
  const places = number < 10 ? Math.max(0, 1 - Math.floor(Math.log10(number))) : 0;
  return String(+number.toFixed(places));
};
const measure = (cm, error) => {
  const number = rounded(cm, error);
  return number < 10 ? number.toFixed(1).replace(".0", "") : number.toFixed(0);
};
const amount = (metres, error, grams, ball, balls) => {
  const length = `${plain(metres, error)} m (${plain(metres / UNITS.yd, error)} yd)`;
  if (grams < 5) return `small amount (about ${length})`;
  const number = Math.max(1, Math.ceil(grams * (1 + error) / ball - 1e-9));
  return `${length}, ${plain(grams, error)} g` + (balls ? `, ${number} ball` + (number > 1 ? "s" : "") : "");
};
const tall = (rounds, ratio) => {
  const rise = (height, gain) => height / 2 * Math.sqrt(Math.max(0, 1 - (gain / (2 * Math.PI * ratio)) ** 2));
  const [first, end] = [rounds[0], rounds.at(-1)];
  return rounds.slice(1).reduce((sum, [n, height], i) => sum + rise(rounds[i][1], n - rounds[i][0]) + rise(height, n - rounds[i][0]),
    rise(first[1], 2 * first[0]) + rise(end[1], 2 * end[0]));
};

const anotherYarn = part => {
  const data = JSON.parse(part.dataset.yarn);
  const said = set(el("div", { className: "sc-said" }), "role", "status");
  const fields = {};
  const field = (name, text, value, units, unit) => {
    const input = el("input", { type: "text", inputMode: "decimal", value: value ?? "" });
    const group = el("label", {}, `${text} `, input);
    const choice = units ? el("select", { ariaLabel: `${text}, unit` }, ...units.map(u => el("option", {}, u))) : "";
    fields[name] = { input, text, in: () => units ? UNITS[choice.value] : 1, unit: () => choice.value };
    return el("span", {}, group, choice);
  };
  const [stitches, rows, cm] = data.gauge || [];
  const [grams, metres] = data.yarn || [];
  const form = el("form", {},
    el("fieldset", {}, el("legend", {}, "One ball of your yarn"),
      field("grams", "Weight", grams, ["g", "oz"]), field("metres", "Length", metres, ["m", "yd"])),
    el("fieldset", {}, el("legend", {}, "Your gauge"),
      field("stitches", "Stitches", stitches), field("rows", "Rounds or rows", rows), field("cm", "over", cm ?? 10, ["cm", "in"])),
    el("button", { textContent: "Work it out" }));
  const read = name => {
    const { input, text } = fields[name];
    const value = +input.value.trim().replace(",", ".");
    const none = name === "rows" && !input.value.trim();
    const good = none || value > 0 && value <= 1e5;
    set(input, "aria-invalid", !good);
    if (good) return none ? 0 : value * fields[name].in();
    if (!said.textContent) {
      said.append(`${text}: ${input.value.trim() ? `“${input.value.trim().slice(0, 30)}” can't be` : "nothing is there"}. Write a number above 0.`);
      input.focus();
    }
    return NaN;
  };
  form.onsubmit = e => {
    e.preventDefault();
    said.textContent = "";
    const [g, m, st, r, over] = ["grams", "metres", "stitches", "rows", "cm"].map(read);
    if (said.textContent) return;
    const width = over / st, height = r ? over / r / data.row : 0;
    const unit = fields.cm.unit();
    const list = rows => el("ul", {}, ...rows.map(([name, text]) => el("li", {}, el("strong", {}, el("bdi", {}, name)), `: ${text}`)));
    said.append(list(data.colors.map(([name, slope, tails, error, balls]) => {
      const length = tails + slope * width;
      return [name, amount(length, error, length * g / m, g, balls)];
    })), list(data.pieces.map(([name, error, measures, ball]) => [name, measures.map(([word, byRows, factor]) => {
      if (byRows && !height) return "";
      let size = factor * (byRows ? height : width);
      const ratio = height / width;
      if (byRows && ball && ratio >= ball[0] && ratio <= ball[1]) size = tall(ball[2], ratio) * height;
      return `${measure(size / UNITS[unit], error)} ${unit} ${word}`;
    }).filter(Boolean).join(", ")])), el("p", {}, `Yarn with its tails; it may be off by ${Math.round(100 * data.colors[0][3])} % either way.`));
  };
  part.append(form, said);
  part.hidden = false;
};

// --- begin, here and whenever a site puts another page in the place of this one

const scan = () => {
  const roots = all(document, ".stitchcheck[data-pattern]").filter(root => !root.begun);
  if (!roots.length) return last?.roots[0].isConnected || drawBar();
  patterns.splice(0, patterns.length, ...patterns.filter(pattern => pattern.roots[0].isConnected));
  if (last && !patterns.includes(last)) last = null;
  const fresh = new Map();
  for (const root of roots) {
    root.begun = true;
    root.classList.add("sc-on");
    const id = root.dataset.pattern;
    if (!fresh.has(id)) fresh.set(id, new Pattern(id));
    fresh.get(id).add(root);
    all(root, "[data-yarn]").forEach(anotherYarn);
  }
  fresh.forEach(pattern => { patterns.push(pattern); pattern.begin(); pattern.look(); });
  drawBar();
};
scan();
new MutationObserver(scan).observe(document.documentElement, { childList: true, subtree: true });
document.addEventListener("visibilitychange", async () => {
  if (awake && !document.hidden) awake = await navigator.wakeLock.request("screen").catch(() => null);
});
})();

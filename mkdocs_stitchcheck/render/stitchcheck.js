// Following a pattern: ticks that stay, the terms that a maker knows, her own yarn. Without it the page stays whole.
(() => {
"use strict";
const all = (root, what) => [...root.querySelectorAll(what)], one = (root, what) => root.querySelector(what);
const el = (tag, props, ...inside) => {
  const node = Object.assign(document.createElement(tag), props);
  node.append(...inside);
  return node;
};
const set = (node, name, value) => { node.setAttribute(name, value); return node; };
const note = (className, ...inside) => set(el("div", { className, translate: false }, ...inside), "role", "status");
const button = (text, press) => el("button", { type: "button", textContent: text, onclick: press });
const escaped = word => word.replace(/[^\p{L}\p{N} ]/gu, "\\$&");
const finder = words => RegExp(`(^|[^\\p{L}\\d]|\\d(?!st(?!\\p{L})))(${words.sort((a, b) => b.length - a.length).map(escaped).join("|")})(?!\\p{L})`, "gu");

// What the browser keeps. Where it keeps nothing, ticks last until the page is left.
let keeps = true;
const load = key => { try { return JSON.parse(localStorage[key] || "{}") || {}; } catch { keeps = false; return {}; } };
const save = (key, value) => { try { localStorage[key] = JSON.stringify(value); } catch { keeps = false; } };
const prefs = load("stitchcheck");
const OTHER = { US: "UK", UK: "US" };
let patterns = [], bar, last, awake;

// --- boxes: a row has one group of them, or one a copy; a long range has a number instead

const texts = root => {
  const found = [], walk = document.createTreeWalker(root, 4);
  while (walk.nextNode()) found.push(walk.currentNode);
  return found;
};
const long = group => group[0].type === "number";
// The boxes of the size that was chosen.
const live = group => group.filter(box => {
  const picked = box.picked(), of = picked && box.closest(".sc-s");
  return !of || of.classList.contains("sc-s" + picked);
});
const size = group => long(group) ? live(group).length && +group[0].max : live(group).length;
const count = group => long(group)
  ? Math.max(0, Math.min(size(group), Math.floor(+group[0].value) || 0)) : live(group).filter(box => box.checked).length;
const full = group => count(group) >= size(group);
const step = (group, on) => {
  const boxes = live(group);
  if (!boxes.length) return;
  if (long(group)) on ? group[0].stepUp() : group[0].stepDown();
  else if (on) boxes.find(box => !box.checked).checked = true;
  else boxes.filter(box => box.checked).pop().checked = false;
};
const mark = text => [...text].reduce((sum, c) => (sum * 31 + c.codePointAt(0)) % 2147483647, 7).toString(36);
const words = row => one(row, ".sc-words");
const text = (row, what) => one(row, what)?.textContent || "", label = row => text(row, ".sc-rnd");
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

// A pattern that is followed; its blocks stand in roots.
const follow = (id, roots) => {
  const every = what => roots.flatMap(root => all(root, what));
  const told = name => roots.map(root => root.dataset[name]).find(Boolean);
  const key = `stitchcheck:${location.pathname.replace(/index\.html$/, "")}#${id}`, rows = [];
  const version = told("version") || "", system = told("terms"), swap = JSON.parse(told("words") || "{}");
  const sizes = every(".sc-choice input"), head = every(".sc-head")[0], ask = every(".sc-ask a")[0];
  let state = load(key), at, tapped, now, shown;

  const of = piece => rows.filter(row => row.piece === piece);
  const sums = () => Object.fromEntries(rows.map(row => [row.key, row.sum]));
  // The number of the size that was chosen; 0 for all.
  const picked = () => Math.max(0, sizes.findIndex(one => one.checked));
  // The copy of a piece that is being worked, from 0.
  const copy = piece => {
    const groups = of(piece).map(row => row.groups), most = Math.max(...groups.map(g => g.length));
    for (let c = 0; c < most; c++) if (groups.some(g => g[c] && !full(g[c]))) return c;
    return most - 1;
  };
  const current = row => row.groups[Math.min(copy(row.piece), row.groups.length - 1)];
  const open = row => !full(current(row));
  // What comes next after a row: the rest of its piece, the next copy, the next piece, whatever was passed over.
  const after = row => {
    const rest = rows.slice(rows.indexOf(row) + 1), mine = one => one.piece === row?.piece;
    return [...rest.filter(mine), ...rows.filter(mine), ...rest, ...rows].find(open);
  };

  const keep = () => {
    const t = {};
    for (const row of rows) {
      const bits = row.groups.flat().map(box => long([box]) ? count([box]) : +box.checked);
      if (bits.some(Boolean)) t[row.key] = bits;
    }
    const begun = Object.keys(t).length || state.r || state.s;
    state = begun ? { ...state, t, at: at?.key, v: state.v ?? version, h: state.h ?? sums() } : {};
    save(key, state);
    draw();
  };

  const touched = (row, group) => {
    const before = at;
    at = full(group) ? after(row) : row;
    if (at !== before) state.r = 0;
    last = self;
    keep();
  };

  // A tap ticks the next box of the row; the next tap on the same row goes on, or takes back what was full.
  const tap = row => {
    const group = tapped?.row === row ? tapped.group : current(row);
    step(group, !full(group));
    tapped = { row, group };
    touched(row, group);
  };

  const draw = () => {
    for (const row of rows) {
      row.classList.toggle("sc-done", !open(row));
      row.classList.toggle("sc-next", row === at);
    }
    now?.remove();
    now = at && strip(at);
    if (now?.firstChild) words(at).append(now);
    drawBar();
  };

  const strip = row => {
    const strip = el("span", { className: "sc-now", translate: false }), times = +row.dataset.times, done = state.r || 0;
    if (times) {
      strip.append(button(`Repeat ${done} of ${times}`, () => {
        state.r = done < times ? done + 1 : 0;
        last = self;
        keep();
        one(now, "button").focus();
      }));
    }
    if (ask) {
      const href = ask.href.replace(/(subject=[^&]*)/, `$1${encodeURIComponent(`: ${where(row)}`)}`);
      strip.append(el("a", { href, textContent: "Ask about this round" }));
    }
    return strip;
  };

  // "Body, Rnd 12 of 25"; "Paw, copy 2 of 2, Rnd 3 of 6"; "Body, Stuff firmly."
  const where = row => {
    const copies = Math.max(...of(row.piece).map(one => one.groups.length)), group = current(row);
    const said = row.piece + (copies > 1 ? `, copy ${copy(row.piece) + 1} of ${copies}` : "");
    const next = live(group).find(box => !box.checked) || group.at(-1);
    const [word, number] = round(next, long(group) ? Math.min(count(group), next.max - 1) : 0);
    if (!number) return `${said}, ${row.text.length > 40 ? row.text.slice(0, 38) + "…" : row.text}`;
    const ends = of(row.piece).map(one => live(one.groups[0]).at(-1)).filter(Boolean).map(box => round(box, +box.max && box.max - 1));
    return `${said}, ${word} ${number} of ${Math.max(...ends.filter(end => end[0] === word).map(end => end[1]))}`;
  };

  const deeds = {
    wake,
    terms: () => prefer("terms", OTHER[shown]),
    clear: () => {
      if (!confirm("Clear all ticks of this pattern?")) return;
      rows.flatMap(row => row.groups.flat()).forEach(box => long([box]) ? box.value = 0 : box.checked = false);
      state = {};
      at = after();
      keep();
    },
  };

  const corrections = () => {
    const { h, v } = state, changed = h ? rows.filter(row => label(row) && h[row.key] !== row.sum) : [];
    if (!changed.length) return "";
    const named = changed.map(row => `${row.piece}, ${label(row)}`).join("; "), was = v && v !== version ? ` (with version ${v})` : "";
    const said = note("sc-changed", `${named} ${changed.length > 1 ? "were" : "was"} corrected since you began${was}. `, button("Seen", () => {
      Object.assign(state, { v: version, h: sums() });
      keep();
      said.remove();
    }));
    return said;
  };

  // --- the words of the rounds

  const explain = () => {
    const list = new Map(every(".sc-abbr dt").flatMap(dt => dt.textContent.split(", ").map(word => [word, dt])));
    if (!list.size) return;
    const find = finder([...list.keys()]);
    for (const row of rows) {
      for (const text of texts(one(row, ".sc-do"))) {
        const parts = [];
        let end = 0;
        for (const found of text.data.matchAll(find)) {
          const start = found.index + found[1].length;
          parts.push(text.data.slice(end, start), explained(found[2], list.get(found[2]), row));
          end = start + found[2].length;
        }
        text.replaceWith(...parts, text.data.slice(end));
      }
    }
  };

  const explained = (word, dt, row) => {
    const onclick = () => {
      const said = all(row, ".sc-say").find(one => one.dt === dt);
      if (said) return said.remove();
      const say = note("sc-say", `${dt.textContent}: ${one(dt.parentNode, "dd").textContent}`);
      words(row).append(Object.assign(say, { dt }));
    };
    return set(el("span", { className: "sc-ab", tabIndex: -1, onclick }, word), "role", "button");
  };

  const look = () => {
    for (const root of roots) {
      root.classList.toggle("sc-large", !!prefs.large);
      root.classList.toggle("sc-hide", !!prefs.hide);
    }
    every("[data-pref]").forEach(one => set(one, "aria-pressed", !!prefs[one.dataset.pref]));
    if (!system) return;
    every(".sc-say").forEach(one => one.remove());
    shown = prefs.terms || system;
    every("[data-do=terms]").forEach(one => one.textContent = `Show in ${OTHER[shown]} terms`);
    const there = shown !== system && finder(Object.keys(swap));
    const put = (holder, own, now, change) => {
      const kept = holder[own] ??= now;
      const text = there ? kept.replace(there, (_, before, word) => before + swap[word]) : kept;
      if (text !== now) change(text);
    };
    for (const root of roots) {
      for (const node of texts(root)) {
        if (!node.parentNode.closest("[translate=no], .sc-finding, a")) put(node, "own", node.data, text => node.data = text);
      }
    }
    for (const name of ["aria-label", "alt", "title"]) {
      every(`[${name}]`).forEach(node => {
        if (!node.closest("[translate=no]")) put(node, name, node.getAttribute(name), text => set(node, name, text));
      });
    }
  };

  // --- begin

  const tick = () => {
    tapped = null;
    tap(at);
  };
  const self = { roots, look, tick, where, next: () => at, ticked: () => Object.keys(state.t || {}).length };
  for (const row of every(".sc-piece tbody tr:has(.sc-tick input)")) {
    row.text = text(row, ".sc-do");
    row.groups = all(row, ".sc-copy, .sc-tick:not(:has(.sc-copy))").map(group => all(group, "input"));
    row.sum = mark(row.text + text(row, ".sc-count"));
    row.piece = row.closest(".sc-piece").dataset.piece;
    const name = `${row.piece}|${label(row) || row.sum}|`;
    row.key = name + rows.filter(r => r.key.startsWith(name)).length;
    rows.push(row);
    const kept = state.t?.[row.key];
    row.groups.flat().forEach((box, i) => {
      const group = row.groups.find(own => own.includes(box));
      Object.assign(box, { picked, onchange: () => touched(row, group) });
      if (!long([box])) return box.checked = !!kept?.[i];
      box.value = kept?.[i] || 0;
      box.parentNode.before(button("one less", () => {
        step(group, false);
        touched(row, group);
      }));
    });
    row.onclick = e => {
      if (!e.target.closest("a, button, input, .sc-ab") && !String(getSelection())) tap(row);
    };
    row.onkeydown = e => { if (e.key === "?") all(row, ".sc-ab").forEach(word => word.click()); };
  }
  if (head && rows.length) {
    head.append(one(head, "template").content, corrections(), keeps ? "" : "This browser keeps no ticks for later.");
    every("[data-do]").forEach(one => one.onclick = deeds[one.dataset.do]);
    every("[data-pref]").forEach(one => one.onclick = () => prefer(one.dataset.pref, !prefs[one.dataset.pref]));
    if (!navigator.wakeLock) every("[data-do=wake]")[0].remove();
  }
  explain();
  if (sizes.length) (sizes[state.s] || sizes[0]).checked = true;
  sizes.forEach((one, i) => one.onchange = () => {
    state.s = i;
    if (!at || !open(at)) at = after();
    keep();
  });
  at = rows.find(row => row.key === state.at) || after();
  draw();
  look();
  return self;
};

const stay = async () => awake = await navigator.wakeLock.request("screen").catch(() => null);
const wake = async () => {
  if (awake) awake = await awake.release();
  else await stay();
  all(document, "[data-do=wake]").forEach(one => set(one, "aria-pressed", !!awake));
};

const drawBar = () => {
  if (!last?.ticked() || !last.roots[0].isConnected) return bar?.remove();
  bar ??= set(el("div", { className: "stitchcheck sc sc-bar", ariaLive: "polite", ariaLabel: "Where you are" }), "role", "region");
  if (!bar.isConnected) document.body.append(bar);
  const focused = bar.contains(document.activeElement), row = last.next();
  if (!row) return bar.replaceChildren("Every round is ticked.");
  bar.replaceChildren(
    button(`${last.where(row)}, next`, () => {
      row.scrollIntoView({ block: "center" });
      one(row, "input").focus({ preventScroll: true });
    }),
    button("Tick it", last.tick));
  if (focused) bar.lastChild.focus();
};

// --- another yarn: the same sums as in the library's estimates.another_yarn

const UNITS = { oz: 28.349523125, yd: .9144, cm: 1, in: 2.54 };
// Rounded to what an error leaves of it, halves to the even digit.
const rounded = (value, error) => {
  const unit = 10 ** ((error < .03 ? 2 : error <= .3 ? 1 : 0) - Math.floor(Math.log10(value))), whole = Math.round(value * unit);
  return (value * unit % 1 === .5 && whole % 2 ? whole - 1 : whole) / unit;
};
const plain = (value, error) => {
  const number = rounded(value, error), places = number < 10 ? Math.max(0, 1 - Math.floor(Math.log10(number))) : 0;
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
  const first = rounds[0], end = rounds.at(-1);
  return rounds.slice(1).reduce((sum, [n, height], i) => sum + rise(rounds[i][1], n - rounds[i][0]) + rise(height, n - rounds[i][0]),
    rise(first[1], 2 * first[0]) + rise(end[1], 2 * end[0]));
};

const anotherYarn = part => {
  part.append(one(part, "template").content);
  const data = JSON.parse(part.dataset.yarn), form = one(part, "form"), said = one(part, ".sc-said");
  const read = input => {
    const text = input.value.trim(), value = +text.replace(",", "."), none = input.name === "rows" && !text;
    const good = none || value > 0 && value <= 1e5;
    set(input, "aria-invalid", !good);
    if (!good && !said.textContent) {
      const name = input.labels[0].textContent.trim();
      said.append(`${name}: ${text ? `“${text.slice(0, 30)}” can't be` : "nothing is there"}. Write a number above 0.`);
      input.focus();
    }
    return none ? 0 : value * (UNITS[input.parentNode.nextElementSibling?.value] || 1);
  };
  const list = rows => el("ul", {}, ...rows.map(([name, text]) => el("li", {}, el("strong", {}, el("bdi", {}, name)), `: ${text}`)));
  form.onsubmit = e => {
    e.preventDefault();
    said.textContent = "";
    const [grams, metres, stitches, rows, over] = all(form, "input").map(read);
    if (said.textContent) return;
    const width = over / stitches, height = rows && over / rows / data.row, ratio = height / width, unit = form.elements.unit.value;
    said.append(list(data.colors.map(([name, slope, tails, error, balls]) => {
      const length = tails + slope * width;
      return [name, amount(length, error, length * grams / metres, grams, balls)];
    })), list(data.pieces.map(([name, error, measures, ball]) => [name, measures.map(([word, byRows, factor]) => {
      if (byRows && !height) return "";
      const isBall = byRows && ball && ratio >= ball[0] && ratio <= ball[1];
      const size = isBall ? tall(ball[2], ratio) * height : factor * (byRows ? height : width);
      return `${measure(size / UNITS[unit], error)} ${unit} ${word}`;
    }).filter(Boolean).join(", ")])));
  };
  part.hidden = false;
};

// --- begin, here and whenever a site puts another page in the place of this one

const scan = () => {
  const roots = all(document, ".stitchcheck[data-pattern]").filter(root => !root.classList.contains("sc-on"));
  if (!roots.length) return last?.roots[0].isConnected || drawBar();
  patterns = patterns.filter(pattern => pattern.roots[0].isConnected);
  if (!patterns.includes(last)) last = null;
  for (const root of roots) {
    root.classList.add("sc-on");
    all(root, "[data-yarn]").forEach(anotherYarn);
  }
  for (const id of new Set(roots.map(root => root.dataset.pattern))) {
    const pattern = follow(id, roots.filter(root => root.dataset.pattern === id));
    patterns.push(pattern);
    if (pattern.ticked()) last ??= pattern;
  }
  drawBar();
};
scan();
new MutationObserver(scan).observe(document.documentElement, { childList: true, subtree: true });
document.addEventListener("visibilitychange", () => awake && !document.hidden && stay());
})();

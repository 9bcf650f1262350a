/* The roof log that is filled in on a phone: what the page of `form --fill`
   does. One state, kept in the page's own storage after every key; everything
   shown is drawn anew from it. It asks the network for nothing.

   What is typed stays as it was typed. It is checked as the program reads a
   tape (src/domain/tape/read.rs; tests/paper/fill.rs holds the two together)
   but never changed: what is odd is said, and handed over as it stands, for
   the import to name it. */
(function () {
"use strict";

const byId = function (id) { return document.getElementById(id); };
const all = function (what) { return Array.from(document.querySelectorAll(what)); };
const page = byId("page").dataset;
const FIGURES = ["bottom", "top", "runs_out", "height"];
const HIGHEST = 200;

/* The edges the job has; what is typed of them goes into the state. */
const known = all("#known li").map(function (item) {
  return { name: item.textContent, said: item.dataset };
});
/* One job, one choice of its edges: one place to keep it. */
const KEY = "bendmark roof log " + JSON.stringify([page.job, page.unit, known.map(function (edge) {
  return [edge.name, edge.said.kind, edge.said.hand];
})]);

let state = fresh();
let view = "readings";
/* While a figure is being typed it is not called odd. */
let typing = false;
let lasts = true;
let clearing = false;

function blank(name, kind, hand) {
  return { name: name, named: false, kind: kind, hand: hand, details: {}, courses: {} };
}

function fresh() {
  const edges = known.map(function (edge) {
    return blank(edge.name, edge.said.kind, edge.said.hand);
  });
  return { edge: 0, course: 1, figure: "bottom", from: "bottom", refused: false,
    edges: edges.length ? edges : [blank("Edge 1", "", "")] };
}

function load() {
  let text = null;
  try {
    text = localStorage.getItem(KEY);
  } catch (refused) {
    lasts = false;
  }
  if (text !== null) {
    try {
      state = JSON.parse(text);
    } catch (damaged) {
      localStorage.setItem(KEY + " damaged", text);
    }
  }
}

/* Written and read back: some browsers keep nothing of a file. */
function keep() {
  const text = JSON.stringify(state);
  try {
    localStorage.setItem(KEY, text);
    lasts = localStorage.getItem(KEY) === text;
  } catch (refused) {
    lasts = false;
  }
  byId("lost").hidden = lasts;
  byId("lost").textContent = "This browser keeps nothing of this page: what is typed is gone " +
    "when it is closed. Copy or share the CSV before that, or write on paper.";
}

/* ---- figures ---- */

/* An exact length in nanometres, or in words what is wrong with it; never a
   guess, never rounded. */
function read(text) {
  const body = text.charAt(0) === "-" ? text.slice(1).trimStart() : text;
  const length = page.unit === "in" ? inches(body) : millimetres(body);
  if (typeof length === "string") { return length; }
  if (length > 100000000000n) { return "is over 100 m, expected at most 100 m"; }
  if (text.charAt(0) === "-") { return "is below zero, expected zero or more"; }
  return length;
}

function shape() {
  return page.unit === "in"
    ? "is not a length, expected one such as 13 5/8, 13.625 or 346 mm"
    : "is not a length, expected one such as 346, 346.5 or 13 5/8 in";
}

/* A fraction of inches in its parts: whole, over, under. */
function parts(text) {
  const slash = text.indexOf("/");
  if (slash < 0) { return null; }
  const left = text.slice(0, slash).trimEnd();
  const at = Math.max.apply(null, [" ", "-", "+", "."].map(function (sign) {
    return left.lastIndexOf(sign);
  }));
  const whole = at < 0 ? "0" : left.slice(0, at).trimEnd();
  const found = [whole, left.slice(at + 1), text.slice(slash + 1).trimStart()];
  return found.every(function (part) { return /^[0-9]+$/.test(part); })
    ? found.map(BigInt) : [];
}

function inches(text) {
  const found = parts(text);
  if (found === null) { return decimal(text, 25400000n); }
  if (found.length === 0) { return shape(); }
  const [whole, over, under] = found;
  if (under === 0n) { return "has a fraction over 0, expected a tape fraction such as 5/8"; }
  if (over >= under) { return "has a fraction of 1 or more, expected one below 1 such as 5/8"; }
  if (![2n, 4n, 8n, 16n, 32n, 64n].includes(under)) {
    return "has a fraction no tape shows exactly, expected halves, 4ths, 8ths, 16ths, 32nds or 64ths";
  }
  return whole * 25400000n + over * (64n / under) * 396875n;
}

function millimetres(text) {
  if (text.includes("/")) {
    return "has a fraction but this job reads millimetres, expected 346.5 or 13 5/8 in";
  }
  return decimal(text, 1000000n);
}

function decimal(text, unit) {
  const found = /^([0-9]*)(?:\.([0-9]*))?$/.exec(text);
  if (found === null || !/[0-9]/.test(text)) { return shape(); }
  const part = (found[2] || "").replace(/0+$/, "");
  const under = 10n ** BigInt(part.length);
  const scaled = BigInt(part || "0") * unit;
  if (part.length > 12 || scaled % under !== 0n) {
    return "has more decimals than can be held exactly, expected at most 5 of an inch or 6 of a millimetre";
  }
  return BigInt(found[1] || "0") * unit + scaled / under;
}

/* What is wrong with a figure, quoting it; "" where nothing is. */
function trouble(text) {
  if (text.trim() === "") { return ""; }
  const length = read(text.trim());
  return typeof length === "string" ? "\"" + text.trim() + "\" " + length : "";
}

/* With a whole part, parted by a blank: a spreadsheet makes a date of 5/8 and
   of 1-1/2. */
function plain(text) {
  const found = parts(text.trim());
  if (trouble(text) || !found) { return text.trim(); }
  return found[0] + " " + found[1] + "/" + found[2];
}

/* ---- the log ---- */

function edge() { return state.edges[state.edge]; }

function course(number) { return edge().courses[number] || {}; }

function typed() { return course(state.course)[state.figure] || ""; }

function type(text) {
  const courses = edge().courses;
  const one = courses[state.course] = course(state.course);
  if (text === "") { delete one[state.figure]; } else { one[state.figure] = text; }
  if (Object.keys(one).length === 0) { delete courses[state.course]; }
  typing = true;
  state.refused = false;
}

/* A figure that was refused is mended by rubbing out: a key that goes on to write
   begins a new one, so that no reading is written behind it. */
function sign(key) { type((state.refused ? "" : typed()) + key); }

function numbers(of) {
  return Object.keys(of.courses).map(Number).sort(function (a, b) { return a - b; });
}

function go(number, figure) {
  state.course = Math.min(Math.max(number, 1), HIGHEST);
  state.figure = figure;
  if (figure === "bottom" || figure === "top") { state.from = figure; }
  typing = false;
  state.refused = false;
}

/* Up the roof: the bottom of a course, then its top. */
function step(by) {
  const at = 2 * state.course + (state.from === "top" ? 1 : 0) + by;
  if (at >= 2 && at <= 2 * HIGHEST + 1) {
    go(Math.floor(at / 2), at % 2 === 1 ? "top" : "bottom");
  }
}

/* An odd figure is said once before one goes on. */
function next() {
  if (typing && trouble(typed())) {
    typing = false;
    state.refused = true;
  } else if (state.figure === "height" && !course(state.course)[state.from]) {
    go(state.course, state.from);
  } else {
    step(1);
  }
}

function back() {
  if (state.figure === state.from) { step(-1); } else { go(state.course, state.from); }
}

function other(figure) {
  if (state.figure === figure) { go(state.course, state.from); } else { go(state.course, figure); }
}

/* Its place in words: where the tape lies and what is read there. */
function place() {
  const number = state.course;
  if (state.figure === "runs_out") {
    return course(number).to === undefined
      ? "the line leaves it so far up" : "the boards meet so far up";
  }
  if (state.figure === "height") { return "short course, its height"; }
  const line = state.figure === "top" ? number : number - 1;
  return state.figure + ", tape " + (line === 0 ? "at the eave" : "over course " + line);
}

function kindOf(one) { return one.kind ? one.kind + ", " + one.hand.toUpperCase() + " hand" : ""; }

/* What the job has of an edge, which this page, blank at first, does not show. */
function logged(at) {
  const count = at < known.length ? Number(known[at].said.logged) : 0;
  return count === 0 ? "" : "already in the job: " + count + (count === 1 ? " course" : " courses");
}

function howRead(one, at) {
  const said = at < known.length ? known[at].said.how : "";
  const button = all("#kinds button").find(function (button) {
    return button.dataset.kind === one.kind && button.dataset.hand === one.hand;
  });
  return said || (at >= known.length && button ? button.dataset.how : "");
}

/* Names that differ by case or spaces only are no two names. */
function bare(name) { return name.toLowerCase().replace(/\s/g, ""); }

function taken(name, not) {
  return state.edges.some(function (one, at) { return at !== not && bare(one.name) === bare(name); });
}

function offered(word, not) {
  let count = 1;
  while (taken(word + " " + count, not)) { count += 1; }
  return word + " " + count;
}

/* ---- the CSV ---- */

function cell(text) {
  return /[",;\t\r\n]|^\s|\s$/.test(text) ? "\"" + text.replace(/"/g, "\"\"") + "\"" : text;
}

function rows() {
  const made = [];
  state.edges.forEach(function (one) {
    const details = Object.keys(one.details).filter(function (name) { return one.details[name]; });
    const courses = numbers(one);
    if (courses.length === 0 && details.length > 0) { courses.push(1); }
    courses.forEach(function (number, at) {
      const row = { edge: one.name, kind: one.kind, hand: one.hand, course: String(number) };
      const read = one.courses[number] || {};
      FIGURES.forEach(function (figure) { row[figure] = plain(read[figure] || ""); });
      if (read.to !== undefined) { row.to = state.edges[read.to].name; }
      if (at === 0) { details.forEach(function (name) { row[name] = one.details[name].trim(); }); }
      made.push(row);
    });
  });
  return made;
}

function csv() {
  const made = rows();
  const more = ["height", "runs_out", "to"].concat(all("[data-column]").map(function (field) {
    return field.dataset.column;
  }));
  const columns = ["edge", "kind", "hand", "course", "bottom", "top"].concat(
    more.filter(function (name) { return made.some(function (row) { return row[name]; }); }));
  return [columns].concat(made.map(function (row) {
    return columns.map(function (name) { return cell(row[name] || ""); });
  })).map(function (row) { return row.join(",") + "\n"; }).join("");
}

/* All that the import would refuse, with where it stands. */
function odd() {
  const found = [];
  state.edges.forEach(function (one, at) {
    const numbered = numbers(one);
    if (numbered.length > 0 && !one.kind) {
      found.push({ edge: at, words: one.name + ": to which side its panels lie is not said" });
    }
    numbered.forEach(function (number) {
      FIGURES.forEach(function (figure) {
        const words = trouble(one.courses[number][figure] || "");
        if (words) {
          found.push({ edge: at, course: number, figure: figure,
            words: one.name + ", course " + number + ", " + figure.replace("_", " ") + ": " + words });
        }
      });
    });
  });
  return found;
}

/* ---- drawing ---- */

function make(name, words, data) {
  const made = document.createElement(name);
  if (name === "button") { made.type = "button"; }
  made.textContent = words;
  Object.assign(made.dataset, data || {});
  return made;
}

function fill(id, children) { byId(id).replaceChildren.apply(byId(id), children); }

function drawReadings() {
  const one = edge();
  const last = Math.max(Number(byId("known").dataset.courses), state.course, ...numbers(one));
  const lines = [];
  for (let number = 1; number <= last; number += 1) { lines.push(courseRow(number)); }
  if (page.from === "ridge") { lines.reverse(); }
  fill("courses", lines);
  const to = course(state.course).to;
  fill("where", [make("b", one.name), make("span", kindOf(one))]);
  byId("where-how").textContent = [logged(state.edge), howRead(one, state.edge)].filter(Boolean).join(". ");
  fill("asked", [make("b", "course " + state.course), make("span", " " + place() +
    (to === undefined ? "" : ", board to board to " + state.edges[to].name))]);
  byId("figure").textContent = typed() || "\u00a0";
  const wrong = trouble(typed());
  const crowd = FIGURES.slice(0, 3).every(function (figure) { return course(state.course)[figure]; });
  const zero = typed() && !wrong && read(typed().trim()) === 0n && state.figure !== "height";
  byId("said").className = wrong && !typing ? "bad" : "";
  byId("said").textContent = wrong ? (typing ? "" : wrong + "; type it anew, or next keeps it")
    : crowd ? "bottom, top and runs out of one course: is one too many?"
    : zero ? "0: where the line leaves the course lower, use runs out"
    : typed() ? "= " + plain(typed()) + " " + page.unit
    : page.unit === "in" ? "such as 13-5/8, 5/8 or 13.625" : "such as 346 or 346.5";
  all("#others [data-do]").forEach(function (button) {
    button.setAttribute("aria-pressed", String(button.dataset.do === state.figure ||
      button.dataset.do === "to" && to !== undefined));
  });
  const now = document.querySelector("#courses .now");
  if (now) { now.scrollIntoView({ block: "nearest" }); }
}

function courseRow(number) {
  const row = document.createElement("tr");
  const read = course(number);
  row.append(make("th", String(number) + (read.to === undefined ? "" : " to")));
  FIGURES.forEach(function (figure) {
    const box = document.createElement("td");
    const text = read[figure] || "";
    const is = number === state.course && figure === state.figure;
    const bad = trouble(text) && !(is && typing);
    const button = make("button", bad ? text + " !" : plain(text) || "\u00a0", { course: number, figure: figure });
    button.setAttribute("aria-label", "course " + number + " " + figure.replace("_", " ") + " " + text);
    button.className = (is ? "now" : "") + (bad ? " bad" : "");
    box.append(button);
    row.append(box);
  });
  return row;
}

function drawEdge() {
  const one = edge();
  const fixed = state.edge < known.length;
  fill("edges", state.edges.map(function (other, at) {
    const words = other.name + (other.kind ? " (" + kindOf(other) + ")" : "");
    const button = make("button", words, { edge: at });
    if (logged(at)) { button.append(make("small", logged(at))); }
    button.setAttribute("aria-pressed", String(at === state.edge));
    return button;
  }));
  byId("edge-name").textContent = one.name + (one.kind ? ": " + kindOf(one) : "");
  byId("edge-how").textContent = [logged(state.edge), howRead(one, state.edge)].filter(Boolean).join(". ");
  byId("sort").hidden = fixed;
  all("#kinds button").forEach(function (button) {
    const is = button.dataset.kind === one.kind && button.dataset.hand === one.hand;
    button.setAttribute("aria-pressed", String(is));
  });
  byId("sort-asked").textContent = one.kind ? "" : "Say first which end it is at: press its drawing.";
  if (document.activeElement !== byId("name")) { byId("name").value = one.name; }
  all("[data-column]").forEach(function (field) {
    const said = fixed ? known[state.edge].said[field.dataset.column] : undefined;
    field.disabled = said !== undefined;
    if (document.activeElement !== field) {
      field.value = said === undefined ? one.details[field.dataset.column] || "" : said;
    }
  });
}

function drawTo() {
  byId("to-asked").textContent = "Course " + state.course + " of " + edge().name + " runs to";
  const others = state.edges.map(function (one, at) { return make("button", one.name, { to: at }); });
  const fit = others.filter(function (button, at) {
    return state.edges[at].kind && state.edges[at].hand !== edge().hand;
  });
  const none = make("button", "no edge: it ends in the field, as usual", { to: "" });
  const ask = make("p", "There is no edge of the other hand yet: make it under edges first.");
  fill("to-edges", fit.concat(fit.length === 0 ? [ask, none] : [none]));
}

function drawCsv() {
  const found = odd();
  byId("csv").value = csv();
  byId("count").textContent = rows().length + " courses" +
    (found.length ? "; the import takes none while one of these stands" : "");
  fill("odd", found.map(function (one) {
    const item = document.createElement("li");
    item.append(make("button", one.words, one.figure
      ? { edge: one.edge, course: one.course, figure: one.figure } : { edge: one.edge }));
    return item;
  }));
}

function draw() {
  if (view === "readings" && !edge().kind) { view = "edge"; }
  all("section[data-of]").forEach(function (section) { section.hidden = section.dataset.of !== view; });
  all("[data-view]").forEach(function (button) {
    button.setAttribute("aria-pressed", String(button.dataset.view === view));
  });
  ({ readings: drawReadings, edge: drawEdge, to: drawTo, csv: drawCsv, how: function () {} })[view]();
}

/* ---- what is pressed ---- */

const DO = {
  next: next,
  back: back,
  rub: function () { type(typed().slice(0, -1)); },
  runs_out: function () { other("runs_out"); },
  height: function () { other("height"); },
  to: function () { view = "to"; },
  new: function () {
    state.edges.push(blank(offered("Edge"), "", ""));
    choose(state.edges.length - 1);
  },
  copy: function () {
    const box = byId("csv");
    box.select();
    const said = function (words) { byId("handed").textContent = words; };
    const old = function () {
      said(document.execCommand("copy") ? "copied" : "not copied: press long in the box and copy it there");
    };
    if (navigator.clipboard) {
      navigator.clipboard.writeText(box.value).then(function () { said("copied"); }, old);
    } else {
      old();
    }
  },
  share: function () {
    const name = "log.csv";
    const file = typeof File === "function" && new File([csv()], name, { type: "text/csv" });
    const what = file && navigator.canShare && navigator.canShare({ files: [file] })
      ? { files: [file], title: name } : { text: csv(), title: name };
    navigator.share(what).then(function () { byId("handed").textContent = "shared"; }, function (why) {
      byId("handed").textContent = "not shared: copy it instead (" + why.message + ")";
    });
  },
  clear: function () {
    clearing = !clearing;
    if (!clearing) { state = fresh(); }
    byId("cleared").textContent = !clearing ? "" : "This takes out all that was typed here. Is the CSV at the bench? Then press once more.";
  }
};

function choose(at) {
  state.edge = at;
  const numbered = numbers(edge());
  go(numbered.length ? numbered[numbered.length - 1] : 1, "bottom");
}

/* The first thing that a button says of itself settles what it does. */
function pressed(button) {
  const said = button.dataset;
  if (said.do !== "clear") { clearing = false; byId("cleared").textContent = ""; }
  if (said.key) { sign(said.key); }
  else if (said.do) { DO[said.do](); }
  else if (said.view) { view = said.view; byId("handed").textContent = ""; }
  else if (said.kind) {
    const one = edge();
    one.kind = said.kind;
    one.hand = said.hand;
    if (!one.named) {
      one.name = offered(said.kind.charAt(0).toUpperCase() + said.kind.slice(1), state.edge);
    }
  } else if (said.to !== undefined) {
    const one = edge().courses[state.course] = course(state.course);
    if (said.to === "") { delete one.to; } else { one.to = Number(said.to); }
    if (Object.keys(one).length === 0) { delete edge().courses[state.course]; }
    view = "readings";
  } else {
    if (said.edge) { choose(Number(said.edge)); }
    if (said.figure) { go(Number(said.course), said.figure); view = "readings"; }
    else { view = "edge"; }
  }
  keep();
  draw();
  if (said.do === "new" || said.edge && !said.figure) { byId("edge-name").scrollIntoView(); }
}

document.addEventListener("click", function (event) {
  const button = event.target.closest("button");
  if (button) { pressed(button); }
});

/* A keyboard does as well: the number pad alone is enough. */
document.addEventListener("keydown", function (event) {
  if (view !== "readings" || event.ctrlKey || event.metaKey || event.altKey) { return; }
  const named = { Enter: "next", Backspace: "rub", ArrowUp: "next", ArrowDown: "back" }[event.key];
  const typedKey = { ",": ".", "+": "-", " ": "-" }[event.key] || event.key;
  const is = function (key) { return key.dataset.do === named && named || key.dataset.key === typedKey; };
  const key = all("#keys button, #others button").find(is);
  if (key) { event.preventDefault(); pressed(key); }
});

byId("name").addEventListener("input", function (event) {
  const name = event.target.value.trim();
  const bad = name === "" ? "nothing is typed, expected a name"
    : taken(name, state.edge) ? "\"" + name + "\" is another edge's name, expected one of its own" : "";
  byId("name-said").textContent = bad && bad + "; it is still " + edge().name;
  if (!bad) { edge().name = name; edge().named = true; }
  keep();
  draw();
});

all("[data-column]").forEach(function (field) {
  field.addEventListener("input", function () {
    edge().details[field.dataset.column] = field.value;
    keep();
  });
});

/* The same page in another window: the last key pressed in either stands. */
window.addEventListener("storage", function (event) {
  if (event.key === KEY && event.newValue !== null) { load(); draw(); }
});

window.addEventListener("beforeunload", function (event) {
  if (!lasts && rows().length > 0) { event.preventDefault(); }
});

const KEYS = page.unit === "in"
  ? ["7", "8", "9", "rub", "4", "5", "6", "-", "1", "2", "3", "/", ".", "0", "next"]
  : ["7", "8", "9", "rub", "4", "5", "6", "1", "2", "3", ".", "0", "next"];
fill("keys", KEYS.map(function (key) {
  const button = make("button", key === "rub" ? "rub out" : key, key.length > 1 ? { do: key } : { key: key });
  button.className = key.length > 1 ? key : "";
  return button;
}));
byId("keys").className = page.unit;
all("[data-do=share]").forEach(function (button) { button.hidden = !navigator.share; });
byId("off").hidden = true;
byId("page").hidden = false;
load();
keep();
draw();
}());

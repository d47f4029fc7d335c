(() => {
"use strict";
const all = (what, where = document) => [...where.querySelectorAll(what)];
const one = (what, where = document) => where.querySelector(what);
const make = (name) => document.createElementNS("http://www.w3.org/2000/svg", name);
const view = one(".view");
const drawing = one(".drawing", view);
const readout = one(".readout");
for (const hidden of [one(".controls"), one(".help"), readout]) hidden.hidden = false;

// Pieces light up on the picture, in the list and in the runs at once.
let lit = null;
const blank = "Point at a piece, or reach it with the Tab key, to see its numbers here.";
readout.textContent = blank;
function light(number) {
  if (number === lit) return;
  lit = number;
  for (const element of all(".lit")) element.classList.remove("lit");
  if (number === null) {
    readout.textContent = blank;
    return;
  }
  for (const element of all(`[data-piece="${number}"]`)) element.classList.add("lit");
  const card = document.getElementById(`piece.${number}`);
  const facts = all(".facts div", card).map((row) => {
    return `${one("dt", row).textContent}: ${one("dd", row).textContent.trim()}`;
  });
  readout.textContent = `${one("h3", card).textContent}. ${facts.join(". ")}.`;
}
const pieceOf = (event) => event.target.closest?.("[data-piece]")?.dataset.piece ?? null;
let focused = null;
document.addEventListener("pointerover", (event) => light(pieceOf(event) ?? focused));
document.addEventListener("focusin", (event) => {
  focused = pieceOf(event);
  light(focused);
  const piece = event.target.closest?.(".view a");
  if (piece && piece.matches(":focus-visible")) reveal(piece.firstElementChild.getBBox());
});
document.addEventListener("focusout", () => {
  focused = null;
});

// What of the picture is shown: a box of the picture's own units, never more than all of it.
const [left, top, width, height] = ["x", "y", "width", "height"].map((side) => view.viewBox.baseVal[side]);
const most = 40;
let box = { x: left, y: top, scale: 1 };
function show(next) {
  const scale = Math.min(Math.max(next.scale, 1), most);
  const within = (value, low, size) => Math.min(Math.max(value, low), low + size - size / scale);
  box = { x: within(next.x, left, width), y: within(next.y, top, height), scale };
  // The style sheet leaves this out on paper, which always has all of the quilt.
  const [right, down] = [left - scale * box.x, top - scale * box.y];
  drawing.style.transform = `matrix(${scale},0,0,${scale},${right},${down})`;
  // At its full size the page scrolls under a finger; larger, the finger moves the picture.
  view.style.touchAction = scale > 1 ? "none" : "pan-y";
}
function zoom(by, at = { x: box.x + width / box.scale / 2, y: box.y + height / box.scale / 2 }) {
  const scale = Math.min(Math.max(box.scale * by, 1), most);
  const share = box.scale / scale;
  show({ x: at.x - (at.x - box.x) * share, y: at.y - (at.y - box.y) * share, scale });
}
function move(x, y) {
  show({ x: box.x + x, y: box.y + y, scale: box.scale });
}
function reveal(area) {
  const [wide, high] = [width / box.scale, height / box.scale];
  const inside = area.x + area.width > box.x && area.x < box.x + wide
    && area.y + area.height > box.y && area.y < box.y + high;
  if (inside) return;
  show({
    x: area.x + area.width / 2 - wide / 2,
    y: area.y + area.height / 2 - high / 2,
    scale: box.scale,
  });
}
function place(event) {
  return new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
}
const zooms = { in: () => zoom(1.5), out: () => zoom(1 / 1.5), whole: () => show({ x: left, y: top, scale: 1 }) };
for (const button of all("[data-zoom]")) button.addEventListener("click", zooms[button.dataset.zoom]);
view.addEventListener("wheel", (event) => {
  // The wheel by itself scrolls the page; with Ctrl, and by pinching a pad, it zooms.
  if (!event.ctrlKey && !event.metaKey) return;
  if (event.deltaY === 0) return;
  event.preventDefault();
  zoom(Math.exp(-Math.sign(event.deltaY) * Math.min(Math.abs(event.deltaY), 100) / 400), place(event));
}, { passive: false });
view.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const step = 0.1 / box.scale;
  const keys = {
    ArrowLeft: () => move(-width * step, 0),
    ArrowRight: () => move(width * step, 0),
    ArrowUp: () => move(0, -height * step),
    ArrowDown: () => move(0, height * step),
    "+": zooms.in,
    "=": zooms.in,
    "-": zooms.out,
    0: zooms.whole,
    " ": () => play(!playing),
  };
  if (!keys[event.key]) return;
  event.preventDefault();
  keys[event.key]();
});

// One finger or the mouse moves the picture, two fingers zoom; a press that stays is a click.
const fingers = new Map();
let dragged = false;
view.addEventListener("dragstart", (event) => event.preventDefault());
view.addEventListener("pointerdown", (event) => {
  if (event.button !== 0) return;
  if (fingers.size === 0) dragged = false;
  fingers.set(event.pointerId, event);
});
view.addEventListener("pointermove", (event) => {
  const before = fingers.get(event.pointerId);
  if (!before) return;
  const far = Math.hypot(event.clientX - before.clientX, event.clientY - before.clientY);
  if (!dragged && far < 4) return;
  if (!dragged) view.setPointerCapture(event.pointerId);
  dragged = true;
  const [from, to] = [place(before), place(event)];
  if (fingers.size === 1) {
    move(from.x - to.x, from.y - to.y);
  } else {
    const other = [...fingers.values()].find((finger) => finger.pointerId !== event.pointerId);
    const still = place(other);
    const apart = (point) => Math.max(Math.hypot(point.x - still.x, point.y - still.y), 1);
    zoom(apart(to) / apart(from), still);
  }
  fingers.set(event.pointerId, event);
});
for (const end of ["pointerup", "pointercancel", "lostpointercapture"]) {
  view.addEventListener(end, (event) => fingers.delete(event.pointerId));
}
view.addEventListener("pointerleave", (event) => {
  if (!view.hasPointerCapture(event.pointerId)) fingers.delete(event.pointerId);
});
view.addEventListener("click", (event) => {
  if (!dragged) return;
  event.preventDefault();
  dragged = false;
}, true);

// The order of stitching: each part of a run is the line of its piece, drawn as far as it is
// stitched by a dash that grows.
const button = one("[data-play]");
const speed = one("[data-speed]");
const order = one("[data-order]");
const layer = one(".playing", view);
const still = matchMedia("(prefers-reduced-motion: reduce)");
const seconds = 24;
let parts = null;
let total = 0;
let needle = null;
let playing = false;
let done = 1;
let last = 0;
function prepare() {
  if (parts) return;
  const lengths = new Map();
  parts = all("[data-from]").map((item) => {
    const number = item.dataset.piece;
    const path = document.getElementById(`line.${number}`);
    if (!lengths.has(path)) lengths.set(path, path.getTotalLength());
    const length = lengths.get(path);
    const [from, to] = [item.dataset.from, item.dataset.to].map((share) => share * length);
    const drawn = make("use");
    drawn.setAttribute("href", `#line.${number}`);
    drawn.style.setProperty("--px", "14");
    layer.append(drawn);
    const part = { number, path, from, long: to - from, drawn, back: "reversed" in item.dataset, start: total };
    total += part.long;
    return part;
  });
  needle = make("circle");
  needle.setAttribute("class", "needle");
  needle.setAttribute("r", "45");
  layer.append(needle);
}
function stitch(share) {
  prepare();
  done = Math.min(Math.max(share, 0), 1);
  const reached = done * total;
  const whole = done === 1;
  view.classList.toggle("plays", !whole);
  layer.style.display = whole ? "none" : "";
  let current = parts[parts.length - 1];
  for (const part of parts) {
    const long = Math.min(Math.max(reached - part.start, 0), part.long);
    part.drawn.style.display = long > 0 ? "" : "none";
    if (long <= 0) continue;
    const first = part.back ? part.from + part.long - long : part.from;
    part.drawn.style.setProperty("--dash", `${long} 1000000`);
    part.drawn.style.strokeDashoffset = -first;
    if (reached <= part.start + part.long) {
      current = part;
      const tip = part.path.getPointAtLength(part.back ? first : first + long);
      needle.setAttribute("cx", tip.x);
      needle.setAttribute("cy", tip.y);
      break;
    }
  }
  for (const part of parts.slice(parts.indexOf(current) + 1)) part.drawn.style.display = "none";
  needle.style.display = done > 0 ? "" : "none";
  // The end is shown only once it is reached.
  const shown = (of) => (whole ? of : Math.min(Math.round(done * of), of - 1));
  order.value = shown(1000);
  const words = whole ? "all stitched" : `piece ${current.number}, ${shown(100)} %`;
  order.setAttribute("aria-valuetext", words);
  light(playing && !whole ? current.number : focused);
}
function next() {
  const ends = parts.map((part) => (part.start + part.long) / total);
  return ends.find((end) => end > done + 1e-9) ?? 1;
}
function frame(now) {
  if (!playing) return;
  const passed = ((now - last) / 1000) * speed.value;
  if (still.matches) {
    // With reduced motion on, whole parts appear one after the other.
    if (passed >= 1.2) {
      last = now;
      stitch(next());
    }
  } else {
    last = now;
    stitch(done + passed / seconds);
  }
  if (done === 1) play(false);
  else requestAnimationFrame(frame);
}
function play(on) {
  prepare();
  if (parts.length === 0) return;
  const begins = on && !playing;
  playing = on;
  button.textContent = on ? "Pause" : "Play";
  if (!begins) return;
  if (done === 1) stitch(0);
  last = performance.now();
  requestAnimationFrame(frame);
}
// Ticks are kept in this browser for this plan, and go to a file and back.
const plan = one("main").dataset.plan;
const boxes = all(".tick input");
const ticked = () => boxes.filter((tick) => tick.checked).map((tick) => tick.closest("[data-piece]").dataset.piece);
const place_of = `quiltpath ticks ${plan}`;
function tick(numbers) {
  // What was stitched before the plan was solved is stitched.
  for (const each of boxes)
    each.checked = each.defaultChecked || numbers.includes(each.closest("[data-piece]").dataset.piece);
}
function keep() {
  // Where the browser keeps nothing, the file is left.
  try {
    localStorage.setItem(place_of, JSON.stringify(ticked()));
  } catch {}
}
try {
  tick(JSON.parse(localStorage.getItem(place_of)) ?? []);
} catch {}
for (const each of boxes) each.addEventListener("change", keep);
one(".keep").hidden = false;
const answer = one("[data-answer]");
one("[data-save]").addEventListener("click", () => {
  const text = JSON.stringify({ plan, ticked: ticked().map(Number) });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  link.download = "ticks.json";
  link.click();
  URL.revokeObjectURL(link.href);
});
one("[data-read]").addEventListener("change", async (event) => {
  try {
    const read = JSON.parse(await event.target.files[0].text());
    if (read.plan !== plan || !Array.isArray(read.ticked)) throw new Error("another plan");
    tick(read.ticked.map(String));
    keep();
    answer.textContent = `${ticked().length} of ${boxes.length} pieces are ticked.`;
  } catch {
    answer.textContent = "These ticks are of another plan. Choose the file that was saved from this sheet.";
  }
  event.target.value = "";
});
button.addEventListener("click", () => play(!playing));
order.addEventListener("input", () => {
  play(false);
  stitch(order.value / 1000);
});
})();

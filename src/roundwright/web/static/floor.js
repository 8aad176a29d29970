// What is at the walls is moved by dragging its handle, or with the arrow keys; the form of the
// same thing is filled in and sent. Lengths are in millimetres, as in the drawing.
const floor = document.querySelector("[data-floor]");
const drawing = floor?.querySelector("svg");
const length = Number(floor?.dataset.length);
const width = Number(floor?.dataset.width);
const STEP = 100;
const STEPS = { ArrowLeft: -STEP, ArrowUp: -STEP, ArrowRight: STEP, ArrowDown: STEP };

const alongOf = (wall) => (wall === "front" || wall === "back" ? length : width);
const snapped = (value, most) => Math.max(0, Math.min(most, Math.round(value / STEP) * STEP));

// Where the middle of something at a wall is, in the drawing.
function middle({ wall, at, wide }) {
  const along = at + wide / 2;
  if (wall === "front") return [along, 0];
  if (wall === "back") return [along, width];
  return [wall === "left" ? 0 : length, along];
}

// The wall that is nearest to a point, and where along it something centred there begins.
function nearest(x, y, wide) {
  const away = { front: y, back: width - y, left: x, right: length - x };
  const wall = Object.keys(away).reduce((a, b) => (away[b] < away[a] ? b : a));
  const along = wall === "front" || wall === "back" ? x : y;
  return { wall, at: snapped(along - wide / 2, alongOf(wall) - wide), wide };
}

function place(handle, state) {
  const [x, y] = middle(state);
  const point = new DOMPoint(x, y).matrixTransform(drawing.getScreenCTM());
  const box = floor.getBoundingClientRect();
  handle.style.left = `${point.x - box.left}px`;
  handle.style.top = `${point.y - box.top}px`;
}

function hold(form) {
  const fields = form.elements;
  const metres = (name) => Math.round(Number(fields[name].value) * 1000);
  let state = { wall: fields.wall.value, at: metres("at"), wide: metres("width") };
  const handle = document.createElement("button");
  handle.type = "button";
  handle.className = "handle";
  handle.textContent = fields.kind.selectedOptions[0].textContent;
  floor.append(handle);
  const write = () => {
    fields.wall.value = state.wall;
    fields.at.value = String(state.at / 1000);
    place(handle, state);
  };
  handle.addEventListener("pointerdown", (event) => handle.setPointerCapture(event.pointerId));
  handle.addEventListener("pointermove", (event) => {
    if (!handle.hasPointerCapture(event.pointerId)) return;
    const there = drawing.getScreenCTM().inverse();
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(there);
    state = nearest(point.x, point.y, state.wide);
    write();
  });
  handle.addEventListener("pointerup", () => form.requestSubmit());
  handle.addEventListener("keydown", (event) => {
    if (event.key === "Enter") form.requestSubmit();
    if (!(event.key in STEPS)) return;
    event.preventDefault();
    const most = alongOf(state.wall) - state.wide;
    state = { ...state, at: snapped(state.at + STEPS[event.key], most) };
    write();
  });
  new ResizeObserver(() => place(handle, state)).observe(floor);
  place(handle, state);
}

if (drawing) for (const form of document.querySelectorAll("[data-fixture]")) hold(form);

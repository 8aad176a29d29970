// The slider shows who stands where at a minute, without asking for the page again.
const form = document.querySelector("[data-moments]");
const slider = document.getElementById("f-minute");
const clock = document.getElementById("clock");
const there = document.getElementById("there");
let stretches = null;

const cell = (kind, words) => {
  const made = document.createElement(kind);
  made.textContent = words;
  if (kind === "th") made.scope = "row";
  return made;
};

async function show() {
  if (!stretches) stretches = (await (await fetch(form.dataset.moments)).json()).stretches;
  const at = slider.valueAsNumber * 60;
  clock.value = `${slider.value}:00`;
  slider.setAttribute("aria-valuetext", clock.value);
  there.replaceChildren(
    ...stretches
      .filter((one) => one.from_s <= at && at < one.to_s)
      .map((one) => {
        const row = document.createElement("tr");
        row.append(cell("th", one.name), cell("td", one.place), cell("td", one.doing));
        return row;
      }),
  );
}

if (form) {
  form.querySelector("button").hidden = true;
  slider.addEventListener("input", show);
  form.addEventListener("submit", (event) => event.preventDefault());
}

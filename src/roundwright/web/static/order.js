// Exercises are put into another order by dragging; the buttons Earlier and Later do the same.
const list = document.querySelector("[data-order]");
const form = document.getElementById("new-order");

const places = () => [...list.children].map((line) => line.dataset.place);

if (list && form) {
  const first = places().join(" ");
  let dragged = null;
  for (const line of list.children) line.draggable = true;
  list.addEventListener("dragstart", (event) => {
    dragged = event.target.closest("li");
    event.dataTransfer.effectAllowed = "move";
  });
  list.addEventListener("dragover", (event) => {
    const over = event.target.closest("li");
    if (!dragged || !over || over === dragged || over.parentElement !== list) return;
    event.preventDefault();
    const box = over.getBoundingClientRect();
    const isBelow = event.clientY > box.top + box.height / 2;
    list.insertBefore(dragged, isBelow ? over.nextSibling : over);
  });
  list.addEventListener("drop", (event) => event.preventDefault());
  list.addEventListener("dragend", () => {
    dragged = null;
    form.elements.order.value = places().join(" ");
    form.hidden = places().join(" ") === first;
  });
}

// Forms marked data-swap="#id" are sent without leaving the page: the answer's region of that id
// takes the place of ours. Without script they are ordinary forms.
const sendable = (form) => form.matches("form[data-swap]");

async function swap(form, button) {
  const body = new FormData(form, button);
  const plain = form.enctype === "multipart/form-data" ? body : new URLSearchParams(body);
  const where = form.dataset.swap;
  const region = document.querySelector(where);
  region?.setAttribute("aria-busy", "true");
  let answer;
  try {
    answer = await fetch(form.action, { method: "POST", body: plain, headers: { accept: "text/html" } });
  } catch {
    form.submit();
    return;
  }
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const fresh = page.querySelector(where);
  if (!fresh || !region) {
    location.assign(answer.url);
    return;
  }
  const focused = document.activeElement?.id;
  region.replaceWith(document.adoptNode(fresh));
  if (answer.redirected) history.replaceState(null, "", answer.url);
  const faults = document.getElementById("faults");
  const again = focused && document.getElementById(focused);
  (faults ?? again ?? fresh).focus?.();
  document.dispatchEvent(new CustomEvent("swapped", { detail: { region: fresh } }));
}

document.addEventListener("submit", (event) => {
  if (!sendable(event.target)) return;
  event.preventDefault();
  swap(event.target, event.submitter);
});

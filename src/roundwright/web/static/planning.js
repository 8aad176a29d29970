// While a class is looked for the page asks for news: the server answers once there is any.
const AGAIN_MS = 1000;

async function look() {
  const here = document.querySelector("main[data-news]");
  if (!here) return;
  const answer = await fetch(here.dataset.news, { headers: { accept: "text/html" }, redirect: "manual" }).catch(() => null);
  if (answer?.type === "opaqueredirect") {
    location.replace(here.dataset.done);
    return;
  }
  if (!answer?.ok) {
    setTimeout(look, AGAIN_MS);
    return;
  }
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const fresh = page.querySelector("main[data-news]");
  if (fresh && fresh.dataset.news !== here.dataset.news) {
    const held = here.contains(document.activeElement);
    here.replaceWith(document.adoptNode(fresh));
    if (held) fresh.querySelector("button").focus({ preventScroll: true });
  }
  look();
}

look();

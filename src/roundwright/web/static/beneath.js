// The pictures of a class, brought beneath it when somebody scrolls there; the link does without.
for (const place of document.querySelectorAll("[data-beneath]")) {
  const look = new IntersectionObserver(
    async (seen) => {
      if (!seen.some((one) => one.isIntersecting)) return;
      look.disconnect();
      const answer = await fetch(place.dataset.beneath);
      if (!answer.ok) return;
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      place.append(...page.querySelectorAll("section.picture"));
      place.dataset.brought = "yes";
    },
    { rootMargin: "200px" },
  );
  look.observe(place);
}

// A field on a page that does not search itself: what is typed is taken along to the page that does. It stands behind
// the "#" of the address, which no server is sent.

const form = document.querySelector<HTMLFormElement>("form[data-leads]");
if (form) {
  const field = form.querySelector("input") as HTMLInputElement;
  const go = (event: Event): void => {
    event.preventDefault();
    const typed = field.value.trim();
    location.href = (form.getAttribute("data-leads") as string) + (typed ? "#q=" + encodeURIComponent(typed) : "");
  };
  form.addEventListener("submit", go);
  (form.querySelector('[data-act="go"]') as HTMLElement).addEventListener("click", go);
}

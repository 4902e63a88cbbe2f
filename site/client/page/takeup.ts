// Templates that a part of the site brought as text. Parsed into a template element, nothing in it
// runs, loads or is shown, and it stays so in each template that is taken out. Only the site's own
// scripts can bring one, which the content policy holds, and html/template escaped what is in it
// (builder/publish/parts.go). The policy asks for no trusted types; one that did would refuse every
// script that is added to the page as well.

/** Takes up the templates of a text, in place of those of the same name. */
export function takeUp(html: string): void {
  const box = document.createElement("template");
  box.innerHTML = html;
  for (const brought of Array.from(box.content.children)) {
    const there = document.getElementById(brought.id);
    if (there) there.remove();
    document.body.appendChild(brought);
  }
}

// Files of the site's own that a page loads when it comes to need them. Scripts and styles
// added to the page are loaded from disk as well, where no other way to get a file is open. What
// failed is taken out again, so that it can be tried once more.

export function loadScript(src: string): Promise<void> {
  const script = document.createElement("script");
  script.src = src;
  return loaded(script, src);
}

export function loadStyle(href: string): Promise<void> {
  const link = document.createElement("link");
  link.rel = "stylesheet";
  link.href = href;
  return loaded(link, href);
}

/** Whether a style is loaded; a link has no sheet before. */
export function hasStyle(href: string): boolean {
  return Array.from(document.querySelectorAll<HTMLLinkElement>('link[rel="stylesheet"]')).some((link) => link.getAttribute("href") === href && !!link.sheet);
}

/** Milliseconds after which a reader is no longer left to wait; what comes later is still taken. */
const LONGEST = 20000;

function loaded(element: HTMLScriptElement | HTMLLinkElement, from: string): Promise<void> {
  return new Promise((done, fail) => {
    setTimeout(() => fail(new Error(`${from} takes too long`)), LONGEST);
    element.onload = () => done();
    element.onerror = () => {
      element.remove();
      fail(new Error(from));
    };
    document.head.appendChild(element);
  });
}

// A page of text that can be read aloud: the button stands below the page's name.

import { make } from "../page/dom";
import { button, whenVoiced } from "./aloud";

whenVoiced(() => {
  const main = document.querySelector("main") as HTMLElement;
  const place = make("p", "", "aloud");
  place.appendChild(button(main));
  (main.querySelector("h1") as HTMLElement).insertAdjacentElement("afterend", place);
});

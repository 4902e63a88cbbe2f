import { greet } from "./greet";
greet(document.title);

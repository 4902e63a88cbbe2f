// What a link brought behind the "#" of the address. It is taken out of the
// address at once, so that it stays nowhere.

/** What stands behind the mark, as it was written; empty where there is none. */
export function takeFragment(mark: string): string {
  const hash = location.hash;
  if (hash.indexOf(mark) !== 0) return "";
  try {
    history.replaceState(history.state, "", location.href.split("#")[0]);
  } catch {
    location.hash = ""; // a viewer that keeps no history
  }
  return hash.slice(mark.length);
}

// What need not be there in the first frame of a change waits for the second, so that the first comes sooner.

/** Does something once what is there now was painted; on a page that nobody sees, once it is seen. */
export function afterFrame(does: () => void): void {
  requestAnimationFrame(() => setTimeout(does));
}

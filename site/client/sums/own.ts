// Ids come from authors, and "constructor" is a fine id, so maps that are keyed
// by them are asked for their own keys only.

export function entry<T>(map: { [id: string]: T }, id: string): T | undefined {
  return Object.prototype.hasOwnProperty.call(map, id) ? map[id] : undefined;
}

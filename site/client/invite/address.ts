// The address of an invitation: the planner's, with topics behind the "#". It is ASCII, for
// readers of square codes do not agree on anything else.

/** What stands before the ids of topics in an address that takes them. */
export const TAKE = "#take=";

/** The most topics of one invitation: it asks for a visit's preparation, and the code on a card stays small. */
export const MOST_TOPICS = 4;

/** More than four ids come to; what is longer was not made here. */
const MOST_LENGTH = 400;

export interface Invited {
  /** In the order in which the address names them, each once. */
  topics: string[];
  /** Whether it named anything else, or too much. */
  lost: boolean;
}

/** What an address asks for, of the topics that there are. */
export function invited(behind: string, known: string[]): Invited {
  if (behind.length > MOST_LENGTH) return { topics: [], lost: true };
  const out: Invited = { topics: [], lost: false };
  for (const id of plain(behind).split(",").map((s) => s.trim()).filter((s) => s)) {
    if (out.topics.indexOf(id) >= 0) continue;
    if (known.indexOf(id) >= 0 && out.topics.length < MOST_TOPICS) out.topics.push(id);
    else out.lost = true;
  }
  return out;
}

/** Some programs for mail write a comma as "%2C". */
function plain(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** Where the page of start/ lies that leads to a topic, or to all of them: what is short enough to type. */
export function typed(topics: string[]): string {
  return topics.length === 1 ? `start/${topics[0] as string}.html` : "start/";
}

/** The address of an invitation, at the address of the copy. Several topics have no page of their own. */
export function invitation(at: string, topics: string[]): string {
  return at + (topics.length > 1 ? `prepare/index.html${TAKE}${topics.join(",")}` : typed(topics));
}

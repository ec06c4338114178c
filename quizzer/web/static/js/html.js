/**
 * The one door by which text becomes HTML. The browser refuses all others (require-trusted-types-for 'script'), and
 * this one lets through only strings that stood in a pack, word for word. A pack comes from this server alone: its
 * address is of the same origin, and all text of the bank was escaped there. What a person types never gets here; it
 * is set as text.
 */

/** @type {Set<string>} */
const given = new Set();
const HOLE = "\ue000"; // where a reply is said that was not known when the pack was made

/** @param {string} text */
const checked = (text) => {
  if (!given.has(text)) throw new TypeError("no text of a pack");
  return text;
};
/** @param {string} address */
const worker = (address) => {
  if (address !== "/sw.js") throw new TypeError("no worker of ours");
  return address;
};
const doors = { createHTML: checked, createScriptURL: worker };
const policy = globalThis.trustedTypes?.createPolicy("quizzer", doors) ?? doors;
export const WORKER = /** @type {string} */ (policy.createScriptURL("/sw.js"));

/** Let the strings of a pack through. @param {unknown} pack */
export function trust(pack) {
  if (typeof pack === "string") given.add(pack);
  else if (pack && typeof pack === "object") Object.values(pack).forEach(trust);
}

/**
 * Put a fragment of the pack into an element; `reply` stands where the fragment has a place for it.
 * @template {Element} T @param {T} element @param {string | undefined} html @param {string} [reply] @returns {T}
 */
export function put(element, html, reply = "") {
  element.innerHTML = /** @type {string} */ (policy.createHTML(html ?? ""));
  const texts = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const node = /** @type {Text} */ (texts.currentNode);
    if (node.data.includes(HOLE)) node.data = node.data.replaceAll(HOLE, reply);
  }
  return element;
}

/**
 * A new element with its attributes and what is in it.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} name @param {Record<string, string>} [attributes] @param {(Node | string)[]} inside
 * @returns {HTMLElementTagNameMap[K]}
 */
export function make(name, attributes = {}, ...inside) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...inside);
  return element;
}

/** A button that does something. @param {string} words @param {() => void} act @param {Record<string, string>} [more] */
export function button(words, act, more = {}) {
  const made = make("button", { type: "button", ...more }, words);
  made.addEventListener("click", act);
  return made;
}
given.add("");

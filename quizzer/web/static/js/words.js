/** Every word that the page itself says: what is beside the questions, which come with theirs. */

/** @param {number} n @param {string} one @param {string} [many] */
export const count = (n, one, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;

export const WORDS = {
  question: (/** @type {number} */ at, /** @type {number} */ of) => `question ${at} of ${of}`,
  sure: "How sure are you?",
  first: "Choose an answer first.",
  order: (/** @type {string} */ chosen) => (chosen ? `Your order so far: ${chosen}` : "Choose the steps in order; choose one again to take it back."),
  unit: (/** @type {string} */ like) => `You are asked for ${like}.`,
  working: "Worked solution",
  next: "Next question",
  dispute: "I dispute this",
  reason: "What is wrong with it?",
  send: "Send to the tutor",
  disputed: "Kept for the tutor.",
  over: "Session over",
  done: (/** @type {number} */ right, /** @type {number} */ all) => `${count(all, "question")}: ${right} right, ${all - right} wrong.`,
  more: "Go on with the next session",
  progress: "Progress",
  none: "No questions are on this phone, and the program cannot be reached. Come back where there is a connection.",
  nothing: "Nothing is left to be asked for now.",
  old: "The questions come from a newer version of this page: load it again.",
  waiting: (/** @type {number} */ n) => `${n} waiting to be sent`,
  refused: (/** @type {number} */ n) => `${count(n, "answer")} refused`,
  others: (/** @type {number} */ n) => `${count(n, "answer")} of somebody else wait${n === 1 ? "s" : ""} here`,
  unsaved: (/** @type {number} */ n) => `${n} not saved on this phone: keep this window open until sent, or save to a file`,
  signIn: "sign in again to send them",
  file: "Save to a file",
  cannot: "This browser keeps nothing (a private window, or no space): what you answer here is lost when the window closes before it is sent.",
  cleared: "A phone may clear what pages keep after a week without use: open this page on the way, or put it on the home screen.",
  differs: (/** @type {string} */ entry, /** @type {boolean} */ right) => `The program marked your answer to ${entry} ${right ? "right" : "wrong"}, this phone otherwise: the program's mark counts.`,
  update: "A new version is ready: take it",
  leave: (/** @type {number} */ n) => `${count(n, "answer")} on this phone ${n === 1 ? "is" : "are"} not sent yet. They stay here, and are sent when you sign in again. Sign out all the same?`,
};
